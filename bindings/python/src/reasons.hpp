// How the facts about a move cross the border.
#pragma once

#include "bindings.hpp"

#include <keysquare/thinking/move_study.hpp>

namespace keysquare::python {

template <class Reasons> py::list python_reasons(const Reasons& reasons) {
    py::list made;
    const py::object reason_class = result_class("Reason");
    for (const MoveReason& reason : reasons)
        made.append(reason_class(text_from(name(reason.fact)), reason.amount, reason.squares));
    return made;
}

} // namespace keysquare::python

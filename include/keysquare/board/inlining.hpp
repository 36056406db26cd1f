// KEYSQUARE_INLINED: for the few functions so small and so often called that a call costs more than they do. A compiler
// may otherwise stop inlining them where much else in a file wants to be inlined.
#pragma once

#if defined(__GNUC__)
/// Put before a function in place of `inline`. For this library alone.
#define KEYSQUARE_INLINED [[gnu::always_inline]] inline
#else
#define KEYSQUARE_INLINED inline
#endif

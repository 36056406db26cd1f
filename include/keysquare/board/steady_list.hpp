// SteadyList: a list that grows, the first elements of which need no allocation, and which never moves any.
#pragma once

#include <iterator>
#include <utility>

#include <keysquare/board/bounded_list.hpp>

namespace keysquare {

/// Holds `Chunk` elements in itself and further ones, should they be needed, in chunks of as many. What was handed out
/// stays where it is as long as the list lives. `T` is as in a `BoundedList`.
template <class T, std::size_t Chunk> class SteadyList {
  public:
    SteadyList() noexcept = default;
    SteadyList(const SteadyList&) = delete;
    SteadyList& operator=(const SteadyList&) = delete;
    /// Takes the elements over; `other` is empty afterwards. Elements of the first part get a new address.
    SteadyList(SteadyList&& other) noexcept : first_(other.first_), rest_(std::exchange(other.rest_, nullptr)) {
        other.first_.clear();
    }
    /// Exchanges the elements with those of `other`, with the same effect on addresses.
    SteadyList& operator=(SteadyList&& other) noexcept {
        std::swap(first_, other.first_);
        std::swap(rest_, other.rest_);
        return *this;
    }
    ~SteadyList() { delete rest_; }

    /// Whether it has no element.
    [[nodiscard]] bool empty() const noexcept { return first_.empty(); }
    /// The number of elements. O(size / Chunk).
    [[nodiscard]] std::size_t size() const noexcept { return first_.size() + (rest_ ? rest_->size() : 0); }

    /// Precondition: `at < size()`.
    [[nodiscard]] const T& operator[](std::size_t at) const noexcept {
        return at < Chunk ? first_[at] : (*rest_)[at - Chunk];
    }

    /// Appends an element. Throws `std::bad_alloc` when it needs memory beyond the first part and there is none.
    void push_back(const T& item) {
        if (first_.size() < Chunk) return first_.push_back(item);
        if (!rest_) rest_ = new SteadyList;
        rest_->push_back(item);
    }

    /// Goes through the elements in their order.
    class Place {
      public:
        /// The names of types that standard algorithms ask for.
        /// @{
        using iterator_category = std::forward_iterator_tag;
        using value_type = T;
        using difference_type = std::ptrdiff_t;
        using pointer = const T*;
        using reference = const T&;
        /// @}

        Place() noexcept = default;
        /// The place `at` of the list, which must outlive it.
        Place(const SteadyList& list, std::size_t at) noexcept : list_(&list), at_(at) {}
        /// The element. Precondition: not past the last one.
        [[nodiscard]] const T& operator*() const noexcept { return (*list_)[at_]; }
        /// A member of the element. Precondition: not past the last one.
        [[nodiscard]] const T* operator->() const noexcept { return &**this; }
        /// Goes on to the next element.
        Place& operator++() noexcept {
            ++at_;
            return *this;
        }
        /// The same; gives the place before.
        Place operator++(int) noexcept {
            const Place before = *this;
            ++at_;
            return before;
        }
        /// Precondition: both are places of the same list.
        [[nodiscard]] bool operator==(const Place& other) const noexcept { return at_ == other.at_; }

      private:
        const SteadyList* list_ = nullptr;
        std::size_t at_ = 0;
    };
    /// The first place.
    [[nodiscard]] Place begin() const noexcept { return {*this, 0}; }
    /// Past the last place.
    [[nodiscard]] Place end() const noexcept { return {*this, size()}; }

  private:
    BoundedList<T, Chunk> first_;
    SteadyList* rest_ = nullptr; // by hand, as a unique_ptr costs more compile time than all the rest
};

} // namespace keysquare

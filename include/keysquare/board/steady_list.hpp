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
    SteadyList(SteadyList&& other) noexcept : first_(other.first_), rest_(std::exchange(other.rest_, nullptr)) {
        other.first_.clear();
    }
    SteadyList& operator=(SteadyList&& other) noexcept {
        std::swap(first_, other.first_);
        std::swap(rest_, other.rest_);
        return *this;
    }
    ~SteadyList() { delete rest_; }

    [[nodiscard]] bool empty() const noexcept { return first_.empty(); }
    [[nodiscard]] std::size_t size() const noexcept { return first_.size() + (rest_ ? rest_->size() : 0); }

    /// Precondition: `at < size()`.
    [[nodiscard]] const T& operator[](std::size_t at) const noexcept {
        return at < Chunk ? first_[at] : (*rest_)[at - Chunk];
    }

    void push_back(const T& item) {
        if (first_.size() < Chunk) return first_.push_back(item);
        if (!rest_) rest_ = new SteadyList;
        rest_->push_back(item);
    }

    /// Goes through the elements in their order.
    class Place {
      public:
        using iterator_category = std::forward_iterator_tag;
        using value_type = T;
        using difference_type = std::ptrdiff_t;
        using pointer = const T*;
        using reference = const T&;

        Place() noexcept = default;
        Place(const SteadyList& list, std::size_t at) noexcept : list_(&list), at_(at) {}
        [[nodiscard]] const T& operator*() const noexcept { return (*list_)[at_]; }
        [[nodiscard]] const T* operator->() const noexcept { return &**this; }
        Place& operator++() noexcept {
            ++at_;
            return *this;
        }
        Place operator++(int) noexcept {
            const Place before = *this;
            ++at_;
            return before;
        }
        [[nodiscard]] bool operator==(const Place& other) const noexcept { return at_ == other.at_; }

      private:
        const SteadyList* list_ = nullptr;
        std::size_t at_ = 0;
    };
    [[nodiscard]] Place begin() const noexcept { return {*this, 0}; }
    [[nodiscard]] Place end() const noexcept { return {*this, size()}; }

  private:
    BoundedList<T, Chunk> first_;
    SteadyList* rest_ = nullptr; // by hand, as a unique_ptr costs more compile time than all the rest
};

} // namespace keysquare

// BoundedList: a list with a fixed capacity, held in the object itself.
#pragma once

#include <cassert>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <initializer_list>
#include <limits>
#include <new>
#include <type_traits>

namespace keysquare {

/// At most `Capacity` elements one after the other, without any allocation. `T` owns nothing: it may be copied byte by
/// byte and need not be destroyed. Making a list touches none of its elements; copying one copies its whole storage, so
/// long lists are better made where they stay.
///
/// Works like a `std::vector` of few functions. Adding to a full list is a mistake of the caller: an assertion for one
/// element, the end of the program for several.
template <class T, std::size_t Capacity> class BoundedList {
    static_assert(std::is_trivially_copyable_v<T> && std::is_trivially_destructible_v<T>);
    static_assert(Capacity <= (std::numeric_limits<std::uint32_t>::max)());

  public:
    /// The names of types that standard algorithms ask for.
    /// @{
    using value_type = T;
    using size_type = std::size_t;
    using difference_type = std::ptrdiff_t;
    using reference = T&;
    using const_reference = const T&;
    using iterator = T*;
    using const_iterator = const T*;
    /// @}

    BoundedList() noexcept {} // NOLINT: `= default` is deleted where an element has default values
    /// The elements from `first` up to `last`. Precondition: at most `Capacity`.
    BoundedList(const T* first, const T* last) noexcept { insert(end(), first, last); }
    /// These elements, in order. Precondition: at most `Capacity`.
    BoundedList(std::initializer_list<T> items) noexcept : BoundedList(items.begin(), items.end()) {}

    /// Whether it has no element.
    [[nodiscard]] bool empty() const noexcept { return size_ == 0; }
    /// The number of elements.
    [[nodiscard]] std::size_t size() const noexcept { return size_; }
    /// The most elements that fit.
    [[nodiscard]] static constexpr std::size_t capacity() noexcept { return Capacity; }

    /// The first place and the one past the last; `data()` is the first place as a pointer.
    /// @{
    [[nodiscard]] T* begin() noexcept { return items_; }
    [[nodiscard]] T* end() noexcept { return items_ + size_; }
    [[nodiscard]] const T* begin() const noexcept { return items_; }
    [[nodiscard]] const T* end() const noexcept { return items_ + size_; }
    [[nodiscard]] T* data() noexcept { return items_; }
    [[nodiscard]] const T* data() const noexcept { return items_; }
    /// @}

    /// Precondition: `at < size()`.
    [[nodiscard]] T& operator[](std::size_t at) noexcept {
        assert(at < size_);
        return items_[at];
    }
    /// Precondition: `at < size()`.
    [[nodiscard]] const T& operator[](std::size_t at) const noexcept {
        assert(at < size_);
        return items_[at];
    }
    /// Precondition of these four: not empty.
    [[nodiscard]] T& front() noexcept { return (*this)[0]; }
    /// Precondition: not empty.
    /// @{
    [[nodiscard]] const T& front() const noexcept { return (*this)[0]; }
    [[nodiscard]] T& back() noexcept { return (*this)[size_ - std::size_t{1}]; }
    [[nodiscard]] const T& back() const noexcept { return (*this)[size_ - std::size_t{1}]; }
    /// @}

    /// Appends an element. Precondition: `size() < Capacity`.
    void push_back(const T& item) noexcept {
        assert(size_ < Capacity);
        ::new (static_cast<void*>(items_ + size_)) T(item);
        ++size_;
    }
    /// An element with its default values.
    T& emplace_back() noexcept {
        push_back(T{});
        return back();
    }
    /// Precondition: not empty.
    void pop_back() noexcept {
        assert(size_ > 0);
        --size_;
    }
    /// Takes all elements out.
    void clear() noexcept { size_ = 0; }

    /// The element `count` times, and nothing else.
    void assign(std::size_t count, const T& item) noexcept {
        clear();
        for (; count > 0; --count) push_back(item);
    }
    /// Puts the element, or those from `first` up to `last`, before `place`. They stand in no part of this list.
    void insert(T* place, const T& item) noexcept { insert(place, &item, &item + 1); }
    /// The same for the elements from `first` up to `last`. Precondition: there is room for them.
    void insert(T* place, const T* first, const T* last) noexcept {
        const std::ptrdiff_t count = last - first;
        if (size_ + static_cast<std::size_t>(count) > Capacity) std::abort(); // lines grow here, whatever their bound
        for (T* at = end(); at != place; --at) at[count - 1] = at[-1];
        for (; first != last; ++first, ++place) *place = *first;
        size_ += static_cast<std::uint32_t>(count);
    }
    /// Takes the elements from `first` up to `last` out.
    void erase(T* first, T* last) noexcept {
        T* to = first;
        for (const T* from = last; from != end(); ++from) *to++ = *from;
        size_ = static_cast<std::uint32_t>(to - items_);
    }

    /// Whether both hold equal elements in the same order.
    friend bool operator==(const BoundedList& a, const BoundedList& b) noexcept {
        if (a.size_ != b.size_) return false;
        for (std::size_t at = 0; at < a.size_; ++at)
            if (!(a.items_[at] == b.items_[at])) return false;
        return true;
    }

  private:
    std::uint32_t size_ = 0; // not of a type that elements have, so that storing one leaves it in its register
    union {
        T items_[Capacity];
    };
};

} // namespace keysquare

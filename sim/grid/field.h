/// One value a cell, or a face: rows of float (or double) with a ghost ring one cell wide.
///
/// Row j starts on a cache line; rows are an odd number of cache lines apart, because a stride of a multiple of
/// 4 KiB makes column sweeps up to four times slower. Index (i, j): i to the right (x), j downwards (y), (0, 0) the
/// top left cell of the sheet; -1 and nx, ny are the ghosts. Copying a Field copies its values.
#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <memory>
#include <new>

namespace tidemark::grid {

template <class T> class Field {
  public:
    Field() = default;
    Field(int nx, int ny, T value = T{}) { resize(nx, ny, value); }
    Field(const Field& other) { *this = other; }
    Field& operator=(const Field& other) {
        if (other.empty()) {
            *this = Field();
        } else if (this != &other) {
            if (nx_ != other.nx_ || ny_ != other.ny_) resize(other.nx_, other.ny_);
            std::copy_n(other.memory_.get(), count_, memory_.get());
        }
        return *this;
    }
    Field(Field&&) noexcept = default;
    Field& operator=(Field&&) noexcept = default;

    void resize(int nx, int ny, T value = T{}) {
        constexpr std::ptrdiff_t line = 64 / sizeof(T);
        nx_ = nx, ny_ = ny;
        std::ptrdiff_t lines = (nx + 1 + line - 1) / line + 1; // one line in front holds the left ghost
        lines += 1 - lines % 2;
        stride_ = lines * line;
        count_ = static_cast<std::size_t>(stride_) * (ny + 2);
        memory_.reset(static_cast<T*>(std::aligned_alloc(64, count_ * sizeof(T))));
        if (!memory_) throw std::bad_alloc();
        fill(value);
    }
    void fill(T value) { std::fill_n(memory_.get(), count_, value); }

    int nx() const { return nx_; }
    int ny() const { return ny_; }
    bool empty() const { return !memory_; }
    std::ptrdiff_t stride() const { return stride_; }
    std::size_t bytes() const { return count_ * sizeof(T); }
    T* row(int j) { return memory_.get() + (j + 1) * stride_ + 64 / sizeof(T); }
    const T* row(int j) const { return memory_.get() + (j + 1) * stride_ + 64 / sizeof(T); }
    T& operator()(int i, int j) { return row(j)[i]; }
    const T& operator()(int i, int j) const { return row(j)[i]; }

  private:
    struct Free {
        void operator()(T* p) const { std::free(p); }
    };
    int nx_ = 0, ny_ = 0;
    std::ptrdiff_t stride_ = 0;
    std::size_t count_ = 0;
    std::unique_ptr<T[], Free> memory_;
};

} // namespace tidemark::grid

/// Fields whose rows keep their even columns first, then their odd ones.
///
/// A red-black sweep then works on whole runs of memory: a cell's neighbours to the sides lie in the other part of its
/// own row, those above and below in the same part of theirs, and no lane of a vector unit is spent on cells of the
/// other colour. The four cells of a coarse one are even and odd, k and k, of two rows. Column i is k = i/2 of part
/// i%2. Beyond both ends of a part lie ghosts, 0 unless written.
#pragma once
#include "grid/field.h"

namespace tidemark::water {

class PartedField {
  public:
    void resize(int nx, int ny) {
        odd_ = ((nx + 1) / 2 + 2 + 15) / 16 * 16;
        memory_.resize(odd_ + nx / 2 + 16, ny);
    }
    float* part(int parity, int j) { return memory_.row(j) + (parity ? odd_ : 0); }
    float* even(int j) { return memory_.row(j); }
    float* odd(int j) { return memory_.row(j) + odd_; }
    void fill(float value) { memory_.fill(value); }
    template <class A, class Self> static void archive(A& a, Self& self) { ///< grid/archive.h; read into one of that size
        auto& [memory, odd] = self;
        const int nx = memory.nx(), ny = memory.ny();
        a(memory);
        if constexpr (A::reads) a.require(memory.nx() == nx && memory.ny() == ny);
    }

  private:
    grid::Field<float> memory_;
    int odd_ = 0;
};

/// Columns [begin, end) of a row into its parts, and back; begin is even.
void part_row(const float* row, float* even, float* odd, int begin, int end);
void join_row(const float* even, const float* odd, float* row, int begin, int end);

} // namespace tidemark::water

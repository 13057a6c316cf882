/// The smaller and the larger of two values, by value: through the references of std::min and std::max g++ 12 keeps
/// nested ones in memory, and the loop around them is not vectorised (seven times slower).
#pragma once

namespace tidemark::pigment {

inline float smaller(float a, float b) { return a < b ? a : b; }
inline float larger(float a, float b) { return a < b ? b : a; }

} // namespace tidemark::pigment

/// The members of a plain struct, one after the other, so that code that goes through all of them can't forget one.
///
///   each_member(point, [](auto& member) { ... });
///
/// For aggregates of up to 20 members, without C arrays, whose members can be made of nothing else than themselves:
/// numbers, strings, vectors, arrays, fields, other such structs. One that can't be counted (with a C array,
/// std::optional, std::variant, a path) does not compile here; code for it names its members in a structured binding,
/// which does not compile either when one is left out.
#pragma once
#include <cstddef>
#include <type_traits>

namespace tidemark::grid {

namespace members {

struct Anything {
    template <class T> operator T() const;
};

template <class T, class... Any> consteval std::size_t count() {
    if constexpr (requires { T{Any{}..., Anything{}}; })
        return count<T, Any..., Anything>();
    else
        return sizeof...(Any);
}

} // namespace members

template <class T> constexpr std::size_t member_count = members::count<std::remove_cv_t<T>>();

template <class T, class F> void each_member(T& x, F&& f) {
    static_assert(std::is_aggregate_v<std::remove_cv_t<T>>, "a class with secrets goes through its members itself");
    constexpr std::size_t n = member_count<T>;
    static_assert(n <= 20, "more members than are counted here");
    const auto all = [&](auto&... member) { (f(member), ...); };
#define TIDEMARK_MEMBERS(N, ...)                                                                                       \
    if constexpr (n == N) {                                                                                            \
        auto& [__VA_ARGS__] = x;                                                                                       \
        all(__VA_ARGS__);                                                                                              \
    }
    TIDEMARK_MEMBERS(1, a)
    TIDEMARK_MEMBERS(2, a, b)
    TIDEMARK_MEMBERS(3, a, b, c)
    TIDEMARK_MEMBERS(4, a, b, c, d)
    TIDEMARK_MEMBERS(5, a, b, c, d, e)
    TIDEMARK_MEMBERS(6, a, b, c, d, e, g)
    TIDEMARK_MEMBERS(7, a, b, c, d, e, g, h)
    TIDEMARK_MEMBERS(8, a, b, c, d, e, g, h, i)
    TIDEMARK_MEMBERS(9, a, b, c, d, e, g, h, i, j)
    TIDEMARK_MEMBERS(10, a, b, c, d, e, g, h, i, j, k)
    TIDEMARK_MEMBERS(11, a, b, c, d, e, g, h, i, j, k, l)
    TIDEMARK_MEMBERS(12, a, b, c, d, e, g, h, i, j, k, l, m)
    TIDEMARK_MEMBERS(13, a, b, c, d, e, g, h, i, j, k, l, m, o)
    TIDEMARK_MEMBERS(14, a, b, c, d, e, g, h, i, j, k, l, m, o, p)
    TIDEMARK_MEMBERS(15, a, b, c, d, e, g, h, i, j, k, l, m, o, p, q)
    TIDEMARK_MEMBERS(16, a, b, c, d, e, g, h, i, j, k, l, m, o, p, q, r)
    TIDEMARK_MEMBERS(17, a, b, c, d, e, g, h, i, j, k, l, m, o, p, q, r, s)
    TIDEMARK_MEMBERS(18, a, b, c, d, e, g, h, i, j, k, l, m, o, p, q, r, s, t)
    TIDEMARK_MEMBERS(19, a, b, c, d, e, g, h, i, j, k, l, m, o, p, q, r, s, t, u)
    TIDEMARK_MEMBERS(20, a, b, c, d, e, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v)
#undef TIDEMARK_MEMBERS
}

} // namespace tidemark::grid

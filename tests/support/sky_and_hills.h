/// A plan of two washes for tests: a sky, and hills in it. Laid at once their edge runs, after some minutes it stands.
#pragma once
#include <fmt/format.h>

#include <string>

namespace tidemark::tests {

struct SkyAndHills {
    int width_mm = 60, height_mm = 40; ///< the hills are the lower half
    double blue_percent = 2;
    std::string hills_start; ///< lines that say when they begin
    std::string more{};      ///< lines between the hills and the drying
    std::string last{};      ///< lines after it
    std::string edge;        ///< wanted between hills and sky
};

inline std::string plan_text(const SkyAndHills& s) {
    return fmt::format(R"(tidemark = 1
[sheet]
size_mm = [{0}, {1}]
paper = "cold-pressed-185"
room = {{ humidity_pct = 40 }}
[mix.blue]
PB29 = {3}
[mix.grey]
PBk9 = 3
[area.hills]
rectangle_mm = [0, {2}, {0}, {2}]
[area.above]
minus = ["sheet", "hills"]
[[step]]
name = "sky"
do = "wash"
mix = "blue"
film_um = 80
pace_cm2_s = 10
[[step]]
name = "hills"
do = "wash"
{4}
area = "hills"
mix = "grey"
film_um = 60
pace_cm2_s = 10
{5}
[[step]]
name = "dry it"
do = "dry"
until = "dry"
longest = "15:00"
warm_air = true
{6}
[[want]]
between = ["hills", "sky"]
edge = "{7}"
)",
                       s.width_mm, s.height_mm, s.height_mm / 2, s.blue_percent, s.hills_start, s.more, s.last, s.edge);
}

} // namespace tidemark::tests

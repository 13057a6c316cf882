// L*a*b* there and back.
#include <catch2/catch.hpp>

#include "colour/lab.h"

using namespace tidemark::colour;

TEST_CASE("L*a*b* to XYZ and back is where it began, dark ends too", "[law][colour]") {
    for (const Light light : {Light::D65, Light::D50})
        for (double L = 0; L <= 100; L += 2.5)
            for (double a = -90; a <= 90; a += 30)
                for (double b = -90; b <= 90; b += 30) {
                    const Lab back = lab_from(xyz_from(Lab{L, a, b}, light), light);
                    CHECK(back.L == Approx(L).margin(1e-9));
                    CHECK(back.a == Approx(a).margin(1e-9));
                    CHECK(back.b == Approx(b).margin(1e-9));
                }
}

// Following the boundary of an area, face by face.
#include "hand/paths.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>

namespace tidemark::hand {

namespace {

/// The middle of a face between a cell of the area and one beyond, in half cells from the top left corner.
struct Face { int x = 0, y = 0; };

class Faces {
  public:
    Faces(const grid::Field<float>& cover, const grid::Field<float>* along, int near)
        : at_(2 * cover.nx() + 1, 2 * cover.ny() + 1) {
        const auto in = [&](int i, int j) { return cover(i, j) >= plan::half_covered; };
        const auto add = [&](int x, int y) {
            if (!along || is_near(*along, 0.5 * x, 0.5 * y, near)) at_(x, y) = 1, all_.push_back({x, y});
        };
        for (int j = 0; j < cover.ny(); ++j)
            for (int i = 0; i < cover.nx(); ++i) {
                if (i + 1 < cover.nx() && in(i, j) != in(i + 1, j))
                    add(2 * i + 2, 2 * j + 1);
                if (j + 1 < cover.ny() && in(i, j) != in(i, j + 1))
                    add(2 * i + 1, 2 * j + 2);
            }
    }
    const std::vector<Face>& all() const { return all_; }
    bool left(const Face& f) const { return at_(f.x, f.y); }
    void take(const Face& f) { at_(f.x, f.y) = 0; }

    /// The next face of the same line that is not taken yet: corners first, then straight on, then across a corner.
    bool next(const Face& f, Face& to) const {
        for (const auto& [dx, dy] : {Face{1, 1}, {1, -1}, {-1, 1}, {-1, -1}, {2, 0}, {-2, 0}, {0, 2}, {0, -2}}) {
            to = {f.x + dx, f.y + dy};
            // A face lies across one axis; straight on is along the other.
            if ((dx != 0 && dy == 0 && f.x % 2 == 0) || (dy != 0 && dx == 0 && f.y % 2 == 0))
                continue;
            if (to.x >= 0 && to.y >= 0 && to.x < at_.nx() && to.y < at_.ny() && at_(to.x, to.y))
                return true;
        }
        return false;
    }

  private:
    grid::Field<std::uint8_t> at_;
    std::vector<Face> all_;

    static bool is_near(const grid::Field<float>& other, double x, double y, int near) {
        const int i0 = static_cast<int>(x), j0 = static_cast<int>(y);
        for (int j = std::max(0, j0 - near - 1); j <= std::min(other.ny() - 1, j0 + near + 1); ++j)
            for (int i = std::max(0, i0 - near - 1); i <= std::min(other.nx() - 1, i0 + near + 1); ++i) {
                const double dx = i + 0.5 - x, dy = j + 0.5 - y;
                if (other(i, j) >= plan::half_covered && dx * dx + dy * dy <= (near + 0.5) * (near + 0.5))
                    return true;
            }
        return false;
    }
};

/// The whole line through `start`, from one end to the other.
std::vector<Face> line_through(Faces& faces, const Face& start) {
    std::vector<Face> line;
    for (int way = 0; way < 2; ++way) {
        std::reverse(line.begin(), line.end());
        Face at = start;
        if (way == 0)
            faces.take(at), line.push_back(at);
        for (Face to; faces.next(at, to); at = to)
            faces.take(to), line.push_back(to);
    }
    return line;
}

} // namespace

std::vector<BoundaryPoint> boundary_of(const grid::Field<float>& coverage,
                                       double cell_m,
                                       const grid::Field<float>* along,
                                       double near_m) {
    Faces faces(coverage, along, static_cast<int>(std::lround(near_m / cell_m)));
    std::vector<BoundaryPoint> out;
    double at_m = 0;
    for (const Face& start : std::vector<Face>(faces.all())) {
        if (!faces.left(start))
            continue;
        const std::vector<Face> line = line_through(faces, start);
        for (std::size_t k = 0; k < line.size(); ++k) {
            if (k > 0) {
                const int dx = line[k].x - line[k - 1].x, dy = line[k].y - line[k - 1].y;
                at_m += 0.5 * cell_m * std::sqrt(static_cast<double>(dx * dx + dy * dy));
            }
            out.push_back({0.5 * cell_m * line[k].x, 0.5 * cell_m * line[k].y, at_m});
        }
    }
    return out;
}

} // namespace tidemark::hand

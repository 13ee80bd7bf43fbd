#include "scale/mark_smooth.h"

#include <algorithm>
#include <cmath>

namespace ridgetally {
namespace {

constexpr double quiet_share =
    0.02;                        // of the spacing: thirty marks read on beyond the end are off by one at most
constexpr int widest_reach = 6;  // neighbours each side: the row bends slowly

}  // namespace

std::vector<MeasuredMark> settled_marks(const RulerLine& line) {
    const double noise = std::max(line.residual_px, 0.5 * line.lean_px);
    const int reach = std::min(widest_reach, static_cast<int>(noise / (quiet_share * line.pitch_px)));
    std::vector<MeasuredMark> settled = line.marks;
    if (reach == 0) return settled;
    const auto count = static_cast<int>(line.marks.size());
    for (int i = 0; i < count; ++i) {
        std::vector<Sample> places;
        std::vector<Sample> leans;
        for (int j = std::max(0, i - reach); j <= std::min(count - 1, i + reach); ++j) {
            const MeasuredMark& m = line.marks[static_cast<std::size_t>(j)];
            places.push_back({static_cast<double>(m.index), m.at_u - line.model.position(m.index)});
            leans.push_back({static_cast<double>(m.index), m.lean});
        }
        MeasuredMark& m = settled[static_cast<std::size_t>(i)];
        m.at_u = line.model.position(m.index) + robust_polynomial(places, 1, line.residual_px)(m.index);
        m.lean = robust_polynomial(leans, 1, 0.01)(m.index);
    }
    return settled;
}

}  // namespace ridgetally

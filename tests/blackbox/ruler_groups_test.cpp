#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "blackbox/measured_shot.h"

namespace ridgetally::blackbox {
namespace {

using synthetic::RulerMake;

struct RulerGroup {
    const char* name;
    RulerMake make;
    std::uint64_t first_seed;
};

/// Reading of the ruler at a place of the photo: linear between the two marks it lies between, or beyond the
/// last.
double reading_at(const std::vector<ScaleMark>& marks, const cv::Point2d& at) {
    double best_gap = 1e18, reading = 0.0;
    for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
        const cv::Point2d a(marks[i].foot_px.x, marks[i].foot_px.y),
            step = cv::Point2d(marks[i + 1].foot_px.x, marks[i + 1].foot_px.y) - a;
        const double t = (at - a).dot(step) / std::max(step.dot(step), 1e-9);
        const double gap = cv::norm(a + std::clamp(t, 0.0, 1.0) * step - at);
        if (gap >= best_gap) continue;
        best_gap = gap;
        reading = marks[i].position_mm + t * (marks[i + 1].position_mm - marks[i].position_mm);
    }
    return reading;
}

void PrintTo(const RulerGroup& group, std::ostream* out) { *out << group.name; }

class RulerPhotos : public testing::TestWithParam<RulerGroup> {};

/// Wrong by more than 3 % is a wrong mark class or unit, or a tilt not seen: the next unit, 1.5875 mm for 1
/// mm, is 59 % off. One photo of ten may be refused; a wrong length is the worst answer there is.
TEST_P(RulerPhotos, AreReadInMillimetresOrNotAtAll) {
    synthetic::Variety variety;
    variety.megapixels = 1.5;
    variety.ruler = GetParam().make;
    int read = 0;
    constexpr int photos = 10;
    for (std::uint64_t seed = GetParam().first_seed; seed < GetParam().first_seed + photos; ++seed) {
        const Taken photo = taken(synthetic::random_swatch(seed, variety));
        Trace nobody_listens;
        const auto report = measure_scale(photo.photo, knowledge().catalog, {}, nobody_listens);
        if (!report) continue;
        ++read;
        double best = 1e9;
        for (const auto& s : photo.truth.segments) {  // the edge that was read is the one it agrees with
            const double mm =
                std::abs(reading_at(report->scale.marks, s.q_px) - reading_at(report->scale.marks, s.p_px));
            best = std::min(best, std::abs(mm / s.mm - 1.0));
        }
        EXPECT_LT(best, 0.03) << GetParam().name << ", seed " << seed;
    }
    EXPECT_GE(read, photos - 1) << GetParam().name;
}

INSTANTIATE_TEST_SUITE_P(Makes, RulerPhotos,
                         testing::Values(RulerGroup{"steel", RulerMake::steel, 23000},
                                         RulerGroup{"wood", RulerMake::wood, 23100},
                                         RulerGroup{"clear", RulerMake::clear, 23200},
                                         RulerGroup{"tape", RulerMake::tape, 23300},
                                         RulerGroup{"black", RulerMake::black, 23400},
                                         RulerGroup{"white", RulerMake::white, 23500}),
                         [](const auto& group) { return group.param.name; });

}  // namespace
}  // namespace ridgetally::blackbox

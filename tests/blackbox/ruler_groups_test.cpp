#include <gtest/gtest.h>

#include <algorithm>

#include "blackbox/measured_shot.h"
#include "core/random.h"
#include "synthetic/camera.h"

namespace ridgetally::blackbox {
namespace {

using synthetic::RulerMake;

struct RulerGroup {
    const char* name;
    RulerMake make;
    std::uint64_t first_seed;
};

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
        EXPECT_LT(length_error(report->scale, photo.truth), 0.03) << GetParam().name << ", seed " << seed;
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

/// A scale whose millimetres the photo hardly resolves.
struct CoarseGroup {
    const char* name;
    RulerMake make;
    synthetic::FineMarks fine;
    synthetic::Blocks blocks;
    double finest_ratio;
    std::uint64_t first_seed;
};

void PrintTo(const CoarseGroup& group, std::ostream* out) { *out << group.name; }

/// A swatch beside such a scale, 2.2 to 3.6 px a mm.
synthetic::Shot coarse_shot(const CoarseGroup& group, std::uint64_t seed) {
    synthetic::Variety variety;
    variety.megapixels = 0.7;
    variety.max_tilt_deg = 8.0;
    variety.laid_on_share = 0.0;
    variety.ruler = group.make;
    synthetic::Shot shot = synthetic::random_swatch(seed, variety);
    synthetic::Scene& scene = shot.scene;
    synthetic::Ruler& ruler = scene.rulers.front();
    ruler.length_mm = 140.0;
    ruler.width_mm = 24.0;
    ruler.covered_mm.reset();
    ruler.lower.reset();
    synthetic::Graduation g;
    g.fine = group.fine;
    g.blocks = group.blocks;
    g.finest_ratio = group.finest_ratio;
    g.longest_mm = 5.0;
    g.mark_width_mm = 0.25;
    ruler.upper = g;
    Random random(seed);
    scene.camera.distance_mm = synthetic::Projector(scene.camera).focal_px() / random.uniform(2.2, 3.6);
    scene.sensor.blur_px = std::min(scene.sensor.blur_px, 0.6);
    scene.sensor.motion_px = 0.0;
    scene.sensor.noise = std::min(scene.sensor.noise, 2.0);
    scene.light.glare = 0.0;
    return shot;
}

class CoarseScalePhotos : public testing::TestWithParam<CoarseGroup> {};

/// None is wrong; in good light most are read, and the interval owns up to the error. A length may be off by
/// what the interval says and the reading of the two ends, 0.5 %.
TEST_P(CoarseScalePhotos, AreReadInMillimetresOrNotAtAll) {
    int read = 0;
    constexpr int photos = 8;
    for (std::uint64_t seed = GetParam().first_seed; seed < GetParam().first_seed + photos; ++seed) {
        const Taken photo = taken(coarse_shot(GetParam(), seed));
        Trace nobody_listens;
        const auto report = measure_scale(photo.photo, knowledge().catalog, {}, nobody_listens);
        if (!report) continue;
        ++read;
        const Measured& scale = report->scale.px_per_mm;
        EXPECT_LT(length_error(report->scale, photo.truth),
                  0.005 + (scale.high95() - scale.low95()) / (2.0 * scale.value))
            << GetParam().name << ", seed " << seed;
    }
    EXPECT_GE(read, photos / 2) << GetParam().name;
}

INSTANTIATE_TEST_SUITE_P(
    Makes, CoarseScalePhotos,
    testing::Values(CoarseGroup{"card_with_blocks", RulerMake::black, synthetic::FineMarks::everywhere,
                                synthetic::Blocks::alternating, 1.0, 23600},
                    CoarseGroup{"white_with_blocks", RulerMake::white, synthetic::FineMarks::everywhere,
                                synthetic::Blocks::alternating, 1.0, 23620},
                    CoarseGroup{"clear_with_long_marks", RulerMake::clear, synthetic::FineMarks::everywhere,
                                synthetic::Blocks::none, 0.7, 23640},
                    CoarseGroup{"bar_with_one_divided", RulerMake::black, synthetic::FineMarks::first_unit,
                                synthetic::Blocks::alternating, 1.0, 23660}),
    [](const auto& group) { return group.param.name; });

}  // namespace
}  // namespace ridgetally::blackbox

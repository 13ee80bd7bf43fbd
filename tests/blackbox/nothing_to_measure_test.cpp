#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "blackbox/measured_shot.h"
#include "synthetic/refusals.h"

namespace ridgetally::blackbox {
namespace {

using synthetic::Shot;

/// Small photos: what a thing is shows in them as well, and there are many.
constexpr double megapixels = 0.4;
/// A length off by more is another unit or another class of marks.
constexpr double wrong_scale_from = 0.03;

/// One photo of every kind that has no right answer, each in a light, on a table and under a camera of its
/// own.
class NothingToMeasure : public testing::TestWithParam<std::string> {
  protected:
    NothingToMeasure() : shot_(drawn(GetParam())), photo_(taken(shot_)) {}

    static Shot drawn(const std::string& kind) {
        const auto& kinds = synthetic::refusal_kinds();
        const auto index = std::find(kinds.begin(), kinds.end(), kind) - kinds.begin();
        synthetic::Variety variety;
        variety.megapixels = megapixels;
        return synthetic::random_refusal(600 + static_cast<std::uint64_t>(index), kind, variety);
    }

    /// A true length across the photo, as a maker would point it out without a ruler that can be read.
    [[nodiscard]] TwoPointScale by_hand() const {
        const auto& camera = shot_.scene.camera;
        const double y = 0.5 * camera.height_px, from = 0.1 * camera.width_px, to = 0.9 * camera.width_px;
        const double mm_per_px = camera.distance_mm / synthetic::Projector(camera).focal_px();
        return {{from, y}, {to, y}, mm_per_px * (to - from)};
    }

    void expect_scale_of_ruler() const {
        Trace nobody_listens;
        const auto got = measure_scale(photo_.photo, knowledge().catalog, {}, nobody_listens);
        if (!got) return;
        ASSERT_FALSE(shot_.scene.rulers.empty()) << got->scale.px_per_mm.value << " px per mm";
        const ScaleMark &first = got->scale.marks.front(), &last = got->scale.marks.back();
        const double truth = true_mm_on_ruler(shot_.scene, first.foot_px, last.foot_px);
        EXPECT_LT(std::abs((last.position_mm - first.position_mm) / truth - 1.0), wrong_scale_from)
            << got->scale.px_per_mm.value << " px per mm";
    }

    void expect_no_gauge(const ScaleOptions& scale, std::optional<StitchFamily> told) const {
        SwatchOptions options;
        options.scale = scale;
        options.stitch = told;
        Trace nobody_listens;
        const auto got = measure_swatch(photo_.photo, knowledge(), options, nobody_listens);
        EXPECT_FALSE(got) << (told ? key_of(*told) : "not told") << ": "
                          << got.value().stitches_per_10cm.value << " stitches per 10 cm";
    }

    void expect_no_crown(const ScaleOptions& scale) const {
        CrownOptions options;
        options.scale = scale;
        Trace nobody_listens;
        const auto got = measure_crown(photo_.photo, knowledge(), options, nobody_listens);
        EXPECT_FALSE(got) << "a crown of " << got.value().diameter_mm.value << " mm";
    }

    Shot shot_;
    Taken photo_;
};

/// No gauge and no crown, told the stitch or not; and no scale but from a ruler, whatever lies beside it.
TEST_P(NothingToMeasure, NoNumberComesOut) {
    expect_scale_of_ruler();
    ScaleOptions scale;
    const bool scale_is_wanting = shot_.scene.rulers.empty() && shot_.scene.fabrics.empty();
    if (scale_is_wanting)
        scale.two_points = by_hand();
    else
        expect_no_gauge(scale, std::nullopt);
    expect_no_gauge(scale, StitchFamily::sc);
    expect_no_crown(scale);
}

INSTANTIATE_TEST_SUITE_P(Photos, NothingToMeasure, testing::ValuesIn(synthetic::refusal_kinds()),
                         [](const auto& kind) { return as_test_name(kind.param); });

}  // namespace
}  // namespace ridgetally::blackbox

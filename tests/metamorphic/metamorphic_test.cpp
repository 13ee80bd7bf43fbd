#include <gtest/gtest.h>

#include <opencv2/core.hpp>

#include "blackbox/measured_shot.h"
#include "metamorphic/changes.h"

namespace ridgetally::blackbox {
namespace {

synthetic::Shot good_shot(std::uint64_t seed, StitchFamily family) {
    synthetic::Variety v = even_work(family);
    v.worked = Worked::flat;
    v.laid_on_share = 0.0;
    synthetic::Shot shot = in_good_light(synthetic::random_swatch(seed, v));
    shot.scene.rulers.front().covered_mm.reset();
    return shot;
}

class Metamorphic : public testing::TestWithParam<StitchFamily> {};

TEST_P(Metamorphic, MillimetresStayTheSame) {
    const synthetic::Shot shot = good_shot(31, GetParam());
    const cv::Mat picture = synthetic::render(shot.scene).bgr;
    const auto plain = measured(through_a_file(picture, shot), shot, Told::stitch);
    ASSERT_TRUE(plain.ok()) << plain.refusal().message;
    for (const Change& change : changes()) {
        const auto again = measured(through_a_file(change.apply(picture), shot), shot, Told::stitch);
        ASSERT_TRUE(again.ok()) << change.name << ": " << again.refusal().message;
        expect_agreement(plain->stitches_per_10cm, again->stitches_per_10cm,
                         std::string(change.name) + ", stitches");
        ASSERT_EQ(plain->rows_per_10cm.has_value(), again->rows_per_10cm.has_value()) << change.name;
        if (plain->rows_per_10cm)
            expect_agreement(*plain->rows_per_10cm, *again->rows_per_10cm,
                             std::string(change.name) + ", rows");
    }
}

TEST_P(Metamorphic, ACroppedMarginChangesNothingOnTheTable) {
    const synthetic::Shot shot = good_shot(32, GetParam());
    const cv::Mat picture = synthetic::render(shot.scene).bgr;
    const auto plain = measured(through_a_file(picture, shot), shot, Told::stitch);
    ASSERT_TRUE(plain.ok()) << plain.refusal().message;
    // A crop about the middle keeps the camera's axis where it was; the 35 mm focal length then belongs to
    // another frame.
    const cv::Size size = picture.size();
    const int dx = size.width / 40, dy = size.height / 40;
    Photo cropped =
        through_a_file(picture(cv::Rect(dx, dy, size.width - 2 * dx, size.height - 2 * dy)).clone(), shot);
    if (cropped.focal_length_35mm) *cropped.focal_length_35mm *= 20.0 / 19.0;
    const auto again = measured(cropped, shot, Told::stitch);
    ASSERT_TRUE(again.ok()) << again.refusal().message;
    expect_agreement(plain->stitches_per_10cm, again->stitches_per_10cm, "stitches");
    if (plain->rows_per_10cm && again->rows_per_10cm)
        expect_agreement(*plain->rows_per_10cm, *again->rows_per_10cm, "rows");
}

INSTANTIATE_TEST_SUITE_P(Stitches, Metamorphic,
                         testing::Values(StitchFamily::sc, StitchFamily::hdc, StitchFamily::dc,
                                         StitchFamily::stockinette),
                         [](const auto& group) { return std::string(key_of(group.param)); });

}  // namespace
}  // namespace ridgetally::blackbox

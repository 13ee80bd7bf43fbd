#include "lattice/ridges.h"

#include <gtest/gtest.h>

#include <cmath>

#include "lattice/refine.h"
#include "unit/lattice/drawn_fabric.h"

namespace ridgetally {
namespace {

FabricPatch patch_of(const cv::Mat& grey, const cv::Rect& fabric) {
    FabricPatch patch;
    patch.grey = grey;
    patch.mask = cv::Mat::zeros(grey.size(), CV_8U);
    patch.mask(fabric).setTo(255);
    patch.px_per_mm = 4.0;
    return patch;
}

TEST(Ridges, CountRowsAndStitches) {
    const auto patch =
        patch_of(test::draw({.size = {640, 500}, .stitch_px = 20.0, .row_px = 18.0, .scatter = 0.04}),
                 {40, 50, 560, 396});
    const auto refined = ridgetally::refined(fit_pitches(patch, 20.4, 17.6), patch);
    const auto rows = row_ridges(refined.row_fields, patch.mask, 1);
    const auto stitches = stitch_ridges(refined.stitch_fields, rows, patch.mask, 1);
    // 396 / 18 = 22 rows and 560 / 20 = 28 stitches; the outermost ridge on either side may lie beyond the
    // mask.
    EXPECT_NEAR(static_cast<double>(rows.size()), 22.0, 1.0);
    EXPECT_NEAR(static_cast<double>(stitches.size()), 28.0, 2.0);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const auto& a = rows[i - 1].points[rows[i - 1].points.size() / 2];
        const auto& b = rows[i].points[rows[i].points.size() / 2];
        EXPECT_NEAR(b.y - a.y, 18.0, 4.0);
    }
}

// The first columns of a torn edge see its lower part only, the next ones its upper part.
TEST(Ridges, StayOnTheirRowsAlongATornEdge) {
    auto patch =
        patch_of(test::draw({.size = {640, 500}, .stitch_px = 20.0, .row_px = 18.0, .scatter = 0.04}),
                 {40, 50, 560, 396});
    const auto refined = ridgetally::refined(fit_pitches(patch, 20.4, 17.6), patch);
    auto fields = refined.row_fields;
    for (auto& field : fields) {
        const int step = field.step_px;
        field.response(cv::Rect(0, 0, 100 / step, 330 / step)).setTo(0);
        field.response(cv::Rect(100 / step, 150 / step, 60 / step, field.response.rows - 150 / step))
            .setTo(0);
    }
    const auto rows = row_ridges(fields, patch.mask, 1);
    EXPECT_NEAR(static_cast<double>(rows.size()), 22.0, 1.0);
    for (const Ridge& ridge : rows) {
        const double middle = ridge.points[ridge.points.size() / 2].y;
        for (const auto& p : ridge.points) EXPECT_NEAR(p.y, middle, 9.0);
    }
}

TEST(Ridges, HalfPeriodsWhereTwoRowsRepeat) {
    const auto patch = patch_of(
        test::draw({.size = {640, 500}, .stitch_px = 20.0, .row_px = 18.0, .faces = 2}), {40, 50, 560, 396});
    const auto refined = ridgetally::refined(fit_pitches(patch, 20.0, 36.0), patch);
    EXPECT_NEAR(static_cast<double>(row_ridges(refined.row_fields, patch.mask, 2).size()), 22.0, 1.0);
}

TEST(Ridges, NoRowsNoStitches) {
    PhaseField empty;
    empty.response = cv::Mat::zeros(20, 20, CV_32FC2);
    empty.pitch_px = 10.0;
    EXPECT_TRUE(stitch_ridges({empty}, {}, cv::Mat(20, 20, CV_8U), 1).empty());
}

}  // namespace
}  // namespace ridgetally

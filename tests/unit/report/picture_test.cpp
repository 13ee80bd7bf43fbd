#include "report/picture.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "example_result.h"
#include "report/caption.h"
#include "report/draw/canvas.h"
#include "report/draw/palette.h"

namespace ridgetally {
namespace {

const cv::Scalar table(90, 140, 120);

cv::Mat plain_photo(int width_px = 1200, int height_px = 900) {
    return {height_px, width_px, CV_8UC3, table};
}

/// The photo part of an annotated picture: what lies below the caption.
cv::Mat photo_part(const cv::Mat& annotated, int height_px) {
    return annotated.rowRange(annotated.rows - height_px, annotated.rows);
}

double distance_to(const cv::Mat& picture, int x, int y, const cv::Scalar& colour) {
    const cv::Vec3b& p = picture.at<cv::Vec3b>(y, x);
    return std::abs(p[0] - colour[0]) + std::abs(p[1] - colour[1]) + std::abs(p[2] - colour[2]);
}

bool is(const cv::Mat& picture, int x, int y, const cv::Scalar& colour) {
    return distance_to(picture, x, y, colour) < 60.0;
}

TEST(AnnotatedPicture, DrawsEveryRidgeWhereItWasFound) {
    const SwatchResult result = example_swatch();
    const cv::Mat drawn = photo_part(annotated_picture(plain_photo(), result, example_catalog()), 900);
    for (const auto& ridge : result.overlay.row_ridges) {
        EXPECT_TRUE(is(drawn, 880, cvRound(ridge.points[0].y), palette::row_ridge)) << ridge.index;
        EXPECT_TRUE(is(drawn, 880, cvRound(ridge.points[0].y) + 15, table)) << ridge.index;
    }
    for (const auto& ridge : result.overlay.stitch_ridges) {
        EXPECT_TRUE(is(drawn, cvRound(ridge.points[0].x), 445, palette::stitch_ridge)) << ridge.index;
        EXPECT_TRUE(is(drawn, cvRound(ridge.points[0].x) + 20, 445, table)) << ridge.index;
    }
    EXPECT_TRUE(is(drawn, 700, 100, palette::outline));
    EXPECT_TRUE(is(drawn, 300, 500, palette::outline));
}

TEST(AnnotatedPicture, DrawsEveryMarkAndNumbersTheWholeCentimetres) {
    const SwatchResult result = example_swatch();
    const cv::Mat drawn = photo_part(annotated_picture(plain_photo(), result, example_catalog()), 900);
    for (const auto& mark : result.scale.marks) {
        EXPECT_FALSE(is(drawn, 135, cvRound(mark.foot_px.y), table)) << mark.position_mm;
    }
    // Numbers stand off the tips, right of the feet: ink there at 5 cm, none between 4 and 5 cm.
    const auto ink = [&](int y) {
        cv::Mat changed;
        cv::inRange(drawn(cv::Rect(155, y - 5, 40, 10)), table, table, changed);
        return 400 - cv::countNonZero(changed);
    };
    EXPECT_GT(ink(100 + 300), 20);
    EXPECT_EQ(ink(100 + 270), 0);
}

TEST(AnnotatedPicture, LeavesTheRestOfThePhotoAlone) {
    const cv::Mat drawn =
        photo_part(annotated_picture(plain_photo(), example_swatch(), example_catalog()), 900);
    cv::Mat untouched;
    cv::inRange(drawn, table, table, untouched);
    EXPECT_EQ(cv::countNonZero(untouched(cv::Rect(1050, 0, 150, 900))), 150 * 900);
    EXPECT_GT(cv::countNonZero(untouched), 1200 * 900 * 8 / 10);
}

TEST(AnnotatedPicture, DoesNotWriteOnThePhotoItWasGiven) {
    const cv::Mat photo = plain_photo();
    (void)annotated_picture(photo, example_swatch(), example_catalog());
    cv::Mat untouched;
    cv::inRange(photo, table, table, untouched);
    EXPECT_EQ(cv::countNonZero(untouched), 1200 * 900);
}

TEST(AnnotatedPicture, ReducedPhotosAreDrawnInTheSamePlace) {
    SwatchResult result = example_swatch();
    const cv::Mat photo = plain_photo(600, 450);  // half of the size the result speaks of
    const cv::Mat drawn = photo_part(annotated_picture(photo, result, example_catalog()), 450);
    EXPECT_EQ(drawn.cols, 600);
    EXPECT_FALSE(is(drawn, 350, 50, table));
    EXPECT_TRUE(is(drawn, 350, 57, table));
    EXPECT_TRUE(is(drawn, 350, 43, table));
}

TEST(AnnotatedPicture, LongPhotosAreReduced) {
    SwatchResult result = example_swatch();
    result.photo.width_px = 4000;
    result.photo.height_px = 3000;
    const cv::Mat drawn = annotated_picture(plain_photo(4000, 3000), result, example_catalog());
    EXPECT_EQ(drawn.cols, 1600);
    EXPECT_GT(drawn.rows, 1200);
}

TEST(AnnotatedPicture, AResultWithoutOverlayIsStillAPicture) {
    SwatchResult result = example_swatch();
    result.overlay = {};
    result.scale.marks.clear();
    result.rows_per_10cm.reset();
    EXPECT_EQ(annotated_picture(plain_photo(), result, example_catalog()).cols, 1200);
}

TEST(AnnotatedPicture, WildPointsDoNoHarm) {
    SwatchResult result = example_swatch();
    result.overlay.row_ridges[3].points = {{-1e12, 5.0}, {1e12, 7.0}};
    result.overlay.outline[0] = {std::nan(""), 1e300};
    EXPECT_NO_THROW((void)annotated_picture(plain_photo(), result, example_catalog()));
}

TEST(AnnotatedPicture, AnEmptyPhotoIsMisuse) {
    EXPECT_THROW((void)annotated_picture(cv::Mat(), example_swatch(), example_catalog()),
                 std::invalid_argument);
    EXPECT_THROW((void)annotated_picture(cv::Mat(10, 10, CV_8UC1, 0.0), example_swatch(), example_catalog()),
                 std::invalid_argument);
}

TEST(AnnotatedPicture, SamePhotoSamePixels) {
    const cv::Mat first = annotated_picture(plain_photo(), example_swatch(), example_catalog());
    const cv::Mat second = annotated_picture(plain_photo(), example_swatch(), example_catalog());
    EXPECT_EQ(cv::norm(first, second, cv::NORM_INF), 0.0);
}

TEST(AnnotatedScale, ShowsMarksAndACaption) {
    const SwatchResult swatch = example_swatch();
    const cv::Mat drawn =
        annotated_picture(plain_photo(), ScaleReport{swatch.photo, swatch.scale, {}}, example_catalog());
    EXPECT_GT(drawn.rows, 900);
    EXPECT_FALSE(is(photo_part(drawn, 900), 135, 160, table));
    EXPECT_TRUE(is(photo_part(drawn, 900), 880, 250, table));
}

// A phone shows the picture 65 mm wide; 2 mm is the cap height of 8 point type, small print in books.
TEST(Caption, FiguresAreLegibleOnAPhone) {
    const cv::Mat caption = swatch_caption(example_swatch(), example_catalog(), 1200, Terms::us);
    cv::Mat bright;
    cv::inRange(caption, cv::Scalar(240, 240, 240), cv::Scalar(255, 255, 255), bright);
    // The tallest run of bright pixels in any column is the stroke of a tall figure or letter.
    int tallest = 0;
    for (int x = 0; x < bright.cols; ++x) {
        int run = 0;
        for (int y = 0; y < bright.rows; ++y) {
            run = bright.at<unsigned char>(y, x) != 0 ? run + 1 : 0;
            tallest = std::max(tallest, run);
        }
    }
    EXPECT_GE(tallest * 65.0 / 1200.0, 1.8);
}

TEST(Caption, WarningsAreShown) {
    SwatchResult result = example_swatch();
    const int without = swatch_caption(result, example_catalog(), 1200, Terms::us).rows;
    result.warnings = {{"tilted", "Hold the phone flat above the swatch."}};
    const cv::Mat with_warning = swatch_caption(result, example_catalog(), 1200, Terms::us);
    EXPECT_GT(with_warning.rows, without);
    cv::Mat yellow;
    cv::inRange(with_warning, palette::panel_warning, palette::panel_warning, yellow);
    EXPECT_GT(cv::countNonZero(yellow), 100);
}

}  // namespace
}  // namespace ridgetally

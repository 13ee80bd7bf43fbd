#include "synthetic/ruler_face.h"

#include <gtest/gtest.h>

#include "core/units.h"
#include "synthetic/render.h"

namespace ridgetally::synthetic {
namespace {

Ruler plain_ruler() {
    Ruler ruler;
    ruler.make = RulerMake::white;
    ruler.length_mm = 160.0;
    ruler.thickness_mm = 2.0;
    ruler.upper = Graduation{};
    ruler.upper->numerals = false;
    ruler.lower = std::nullopt;
    return ruler;
}

TEST(RulerFace, MarksLieAtTheirDistance) {
    Graduation mm, half, sixteenth, eighth;
    half.divisions = 2;
    sixteenth.inch = eighth.inch = true;
    sixteenth.divisions = 16;
    eighth.divisions = 8;
    EXPECT_DOUBLE_EQ(mark_spacing_mm(mm), 1.0);
    EXPECT_DOUBLE_EQ(mark_spacing_mm(half), 0.5);
    EXPECT_DOUBLE_EQ(mark_spacing_mm(sixteenth), 1.5875);  // 25.4 / 16
    EXPECT_DOUBLE_EQ(mark_spacing_mm(eighth), 3.175);
}

TEST(RulerFace, LengthsOfMarksNameTheUnit) {
    Graduation mm;
    EXPECT_EQ(mark_ratio(mm, 20), 1.0);
    EXPECT_GT(mark_ratio(mm, 10), mark_ratio(mm, 5));
    EXPECT_GT(mark_ratio(mm, 5), mark_ratio(mm, 4));
    Graduation inch;
    inch.inch = true;
    inch.divisions = 16;
    for (const auto& [longer, shorter] : {std::pair{16, 8}, {8, 4}, {4, 2}, {2, 1}})
        EXPECT_GT(mark_ratio(inch, longer), mark_ratio(inch, shorter));
}

TEST(RulerFace, MarksStayOnTheRuler) {
    for (const double length : {155.0, 210.0, 310.0}) {
        for (const double zero : {0.0, 4.0, 12.0}) {
            Ruler ruler = plain_ruler();
            ruler.length_mm = length;
            ruler.zero_mm = zero;
            EXPECT_LE(mark_place_mm(ruler, *ruler.upper, mark_count(ruler, *ruler.upper) - 1), length);
        }
    }
}

TEST(RulerFace, PaintIsExactUnderPartCoverage) {
    // A 0.2 mm mark at 10 px/mm covers exactly two pixels' worth wherever it lies.
    for (const double x : {5.0, 5.013, 5.05, 5.0777}) {
        Canvas canvas = blank_canvas(10.0, 2.0, 10.0, {200, 200, 200}, 255);
        paint_box(canvas, x - 0.1, 0.0, x + 0.1, 2.0, {0, 0, 0}, 1.0);
        double ink = 0.0, moment = 0.0;
        for (int i = 0; i < canvas.pixels.cols; ++i) {
            const double dark = (200.0 - canvas.pixels(5, i)[0]) / 200.0;
            ink += dark;
            moment += dark * (i + 0.5) / 10.0;
        }
        EXPECT_NEAR(ink, 2.0, 0.02);
        EXPECT_NEAR(moment / ink, x, 0.002);
    }
}

/// Place of the dark line nearest to `expected` along `direction` in the picture, by its centre of darkness.
double offset_of_mark(const cv::Mat3b& picture, const cv::Point2d& expected, const cv::Point2d& direction) {
    double sum = 0.0, moment = 0.0, ground = 0.0;
    for (double d = -4.0; d <= 4.0; d += 0.1)
        ground = std::max(ground, 1.0 * picture(cvRound(expected.y + d * direction.y),
                                                cvRound(expected.x + d * direction.x))[1]);
    for (double d = -3.0; d <= 3.0; d += 0.05) {
        const double x = expected.x + d * direction.x, y = expected.y + d * direction.y;
        const int x0 = cvFloor(x), y0 = cvFloor(y);
        const double fx = x - x0, fy = y - y0;
        const double value = (1 - fy) * ((1 - fx) * picture(y0, x0)[1] + fx * picture(y0, x0 + 1)[1]) +
                             fy * ((1 - fx) * picture(y0 + 1, x0)[1] + fx * picture(y0 + 1, x0 + 1)[1]);
        const double dark = std::max(0.0, ground - value - 30.0);
        sum += dark;
        moment += dark * d;
    }
    return sum > 0.0 ? moment / sum : 99.0;
}

TEST(RulerFace, RenderedMarksLieWhereThePoseSaysThroughTiltAndLens) {
    Scene scene;
    scene.camera.width_px = 1200;
    scene.camera.height_px = 900;
    scene.camera.distance_mm = 190.0;
    scene.camera.pitch_deg = 9.0;
    scene.camera.yaw_deg = -12.0;
    scene.camera.roll_deg = 4.0;
    scene.camera.k1 = 0.006;
    scene.sensor.noise = 0.0;
    scene.light.gradient = 0.0;
    scene.rulers = {plain_ruler()};
    const Ruler& ruler = scene.rulers.front();
    const Picture picture = render(scene);
    const Projector projector(scene.camera);
    int seen = 0;
    double worst = 0.0;
    for (int i = 10; i < mark_count(ruler, *ruler.upper); i += 10) {
        const auto place = [&](double mm) {
            Vec3 p = on_table(ruler, mm, 0.5 * ruler.upper->longest_mm);
            p.z = ruler.thickness_mm;
            return projector.photo(p);
        };
        const double x = mark_place_mm(ruler, *ruler.upper, i);
        const cv::Point2d expected = place(x), step = place(x + 0.1) - expected;
        if (expected.x < 10 || expected.y < 10 || expected.x > 1190 || expected.y > 890) continue;
        worst = std::max(worst, std::abs(offset_of_mark(picture.bgr, expected, step / cv::norm(step))));
        ++seen;
    }
    EXPECT_GE(seen, 10);
    // A tenth of a pixel is 0.02 mm here: two orders below what a class II rule may be off (0.5 mm a metre,
    // MI-008, Directive 2014/32/EU, is 0.05 mm on this stretch of 10 cm).
    EXPECT_LT(worst, 0.1);
}

}  // namespace
}  // namespace ridgetally::synthetic

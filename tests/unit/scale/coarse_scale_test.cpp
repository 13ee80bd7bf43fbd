#include "scale/coarse_scale.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <opencv2/core.hpp>

#include "core/random.h"
#include "scale/read_ruler.h"
#include "unit/scale/drawn_bar.h"

namespace ridgetally {
namespace {

using drawn::Bar;
using drawn::BarMake;
using drawn::View;

struct Draw {
    Bar bar;
    View view;
};

Draw draw(std::uint64_t seed) {
    Random random(seed * 7919 + 11);
    Draw d;
    Bar& b = d.bar;
    b.make = static_cast<BarMake>(random.whole(0, 2));
    b.divisions = random.whole(6, 14);
    b.fine_mm = random.uniform(3.0, 5.5);
    b.long_mm = b.fine_mm * random.uniform(1.2, 1.8);
    b.thick_mm = random.uniform(0.15, 0.32);
    const bool light = random.uniform(0, 1) < (b.make == BarMake::long_lines ? 0.3 : 0.7);
    b.body = light ? random.uniform(20, 80) : random.uniform(150, 235);
    b.ink = light ? random.uniform(150, 240) : random.uniform(20, 90);
    b.table = random.uniform(40, 230);
    b.numerals = random.uniform(0, 1) < 0.8;
    View& v = d.view;
    v.size = {800, 600};
    v.px_per_mm = std::exp(random.uniform(std::log(1.8), std::log(4.0)));
    v.turn_deg = random.uniform(0, 1) < 0.5 ? 90.0 * random.whole(0, 3) + random.uniform(-3, 3)
                                            : random.uniform(0, 360);
    v.tilt_deg = random.uniform(0.0, 12.0);
    v.tilt_axis_deg = random.uniform(0.0, 360.0);
    v.shift_x_px = random.uniform(-250.0, 250.0);
    v.shift_y_px = random.uniform(-200.0, 200.0);
    v.blur_px = random.uniform(0.35, 0.8);
    v.noise = random.uniform(0.5, 3.0);
    v.seed = seed;
    return d;
}

bool all_in_view(const Draw& d) {
    const auto photo = drawn::photo_from_bar(d.bar, d.view);
    for (const double x : {-1.0, d.bar.divisions * d.bar.division_mm + 1.0})
        for (const double y : {-1.0, 14.0}) {
            const PhotoPoint p = photo(ObjectPoint{x, y});
            if (p.x < 2.0 || p.y < 2.0 || p.x > d.view.size.width - 3.0 || p.y > d.view.size.height - 3.0)
                return false;
        }
    return true;
}

/// Two pixels a millimetre are the least that can show them (Nyquist), a little more is what a blurred
/// picture needs.
bool readable(const Draw& d) {
    const double ink = std::abs(d.bar.ink - d.bar.body) * std::min(1.0, d.bar.thick_mm * d.view.px_per_mm);
    return (d.bar.make != BarMake::first_only || all_in_view(d)) && d.view.px_per_mm >= 2.1 &&
           ink > 15.0 * d.view.noise && d.view.blur_px < 0.25 * d.view.px_per_mm;
}

/// Length read over the true one, between the first and the last mark.
double scale_ratio(const MarkLine& line, const Draw& d) {
    const auto bar_from_photo = inverse(drawn::photo_from_bar(d.bar, d.view));
    const ObjectPoint a = (*bar_from_photo)(line.marks.front().foot_px);
    const ObjectPoint b = (*bar_from_photo)(line.marks.back().foot_px);
    return std::abs(line.marks.back().position_mm - line.marks.front().position_mm) /
           std::hypot(b.x - a.x, b.y - a.y);
}

TEST(CoarseScale, BarsAreNeverReadWrongAndMostlyRead) {
    constexpr std::uint64_t first = 5001;
    constexpr int draws = 60;
    int good = 0;
    int read_of_good = 0;
    for (std::uint64_t seed = first; seed < first + draws; ++seed) {
        const Draw d = draw(seed);
        const auto read = read_ruler(drawn::photo_of(d.bar, d.view));
        good += readable(d) ? 1 : 0;
        if (!read.ok()) continue;
        read_of_good += readable(d) ? 1 : 0;
        EXPECT_EQ(read->lines.front().unit, LengthUnit::mm) << "seed " << seed;
        EXPECT_NEAR(scale_ratio(read->lines.front(), d), 1.0, 0.02)
            << "seed " << seed << ", make " << static_cast<int>(d.bar.make) << " at " << d.view.px_per_mm
            << " px/mm";
    }
    std::cout << "readable " << good << ", read " << read_of_good << '\n';
    EXPECT_GE(good, draws / 3);
    EXPECT_GE(read_of_good, 0.75 * good);
}

TEST(CoarseScale, OnlyTenFineMarksMakeACentimetre) {
    for (const int fine : {4, 5, 7, 8, 9, 11, 12, 16})
        for (std::uint64_t seed = 6001; seed <= 6006; ++seed) {
            Draw d = draw(seed);
            d.bar.fine = fine;
            EXPECT_FALSE(read_coarse_scale(drawn::photo_of(d.bar, d.view).pyramid).line)
                << fine << " fine marks, seed " << seed;
        }
}

/// Inches in sixteenths 1.6 px apart beat with the pixels at ten to the inch where an inch is 26 px.
TEST(CoarseScale, FineInchRulesAreNoCentimetres) {
    for (std::uint64_t seed = 1; seed <= 24; ++seed) {
        Random random(seed);
        drawn::Rule rule;
        rule.unit = LengthUnit::inch;
        rule.divisions = seed % 2 == 0 ? 16 : 8;
        rule.length_mm = random.uniform(200.0, 400.0);
        rule.long_mm = random.uniform(6.0, 12.0);
        rule.thick_mm = random.uniform(0.2, 0.5);
        View view;
        view.size = {640, 480};
        view.px_per_mm = random.uniform(0.85, 1.2);
        view.turn_deg = 90.0 * random.whole(0, 3) + random.uniform(-6.0, 6.0);
        view.tilt_deg = random.uniform(0.0, 6.0);
        view.blur_px = random.uniform(0.3, 0.6);
        EXPECT_FALSE(read_coarse_scale(drawn::photo_of(rule, view).pyramid).line)
            << "seed " << seed << ", " << 25.4 * view.px_per_mm << " px an inch, turned by " << view.turn_deg;
    }
}

TEST(CoarseScale, DivisionsAloneHaveNoUnit) {
    for (const BarMake make : {BarMake::blocks, BarMake::long_lines}) {
        Bar bar;
        bar.make = make;
        bar.fine = 1;
        View view;
        view.size = {800, 600};
        view.px_per_mm = 2.5;
        const auto read = read_ruler(drawn::photo_of(bar, view));
        EXPECT_FALSE(read.ok());
    }
}

/// A picture turned by right angles holds the same pixels.
TEST(CoarseScale, ATurnedPictureHasTheSameScale) {
    for (const BarMake make : {BarMake::blocks, BarMake::long_lines, BarMake::first_only}) {
        Bar bar;
        bar.make = make;
        View view;
        view.size = {800, 600};
        view.px_per_mm = 2.4;
        view.turn_deg = 4.0;
        view.blur_px = 0.5;
        const Photo photo = drawn::photo_of(bar, view);
        const auto upright = read_coarse_scale(photo.pyramid).line;
        ASSERT_TRUE(upright) << static_cast<int>(make);
        for (const auto turn : {cv::ROTATE_90_CLOCKWISE, cv::ROTATE_180, cv::ROTATE_90_COUNTERCLOCKWISE}) {
            cv::Mat turned;
            cv::rotate(photo.grey, turned, turn);
            const auto again = read_coarse_scale(grey_pyramid(turned)).line;
            ASSERT_TRUE(again) << static_cast<int>(make) << ", turn " << turn;
            EXPECT_NEAR(again->line.pitch_px / upright->line.pitch_px, 1.0, 0.004) << static_cast<int>(make);
        }
    }
}

TEST(CoarseScale, ToldInchesItIsAConflict) {
    View view;
    view.size = {800, 600};
    view.px_per_mm = 2.4;
    view.blur_px = 0.5;
    RulerOptions options;
    options.told_unit = LengthUnit::inch;
    const auto read = read_ruler(drawn::photo_of(Bar{}, view), options);
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.refusal().code, "unit-conflict");
}

}  // namespace
}  // namespace ridgetally

#include "scale/read_ruler.h"

#include <gtest/gtest.h>

#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "core/units.h"
#include "unit/scale/drawn_ruler.h"

namespace ridgetally {
namespace {

using drawn::Rule;
using drawn::View;

struct Misfit {
    double along_px = 0.0;  ///< rms of the marks' feet along the rule, against the drawing
    double foot_px = 0.0;   ///< rms of their feet across
    double tip_px = 0.0;    ///< rms of their tips along the marks
    double lean_deg = 0.0;  ///< rms of their directions
    int wrong = 0;          ///< marks more than a third of a spacing off any drawn mark, or counted wrong
};

/// Compares a line with the drawing. Which drawn mark a position is follows from the first mark alone.
Misfit misfit(const MarkLine& line, const Rule& rule, const View& view) {
    const auto photo = drawn::photo_from_rule(rule, view);
    const auto back = inverse(photo);
    const auto x_mm = [&](const ScaleMark& m) { return (*back)(m.foot_px).x - rule.first_mm; };
    const double spacing = drawn::spacing_mm(rule);
    const ScaleMark& first = line.marks.front();
    const double sign = x_mm(line.marks.back()) > x_mm(first) ? 1.0 : -1.0;
    const double zero = std::round(x_mm(first) / spacing) * spacing - sign * first.position_mm;
    Misfit m;
    const auto count = static_cast<double>(line.marks.size());
    for (const ScaleMark& mark : line.marks) {
        const double place = zero + sign * mark.position_mm;
        const int k = static_cast<int>(std::lround(place / spacing));
        if (std::abs(place - k * spacing) > 1e-6 || std::abs(x_mm(mark) - place) > spacing / 3.0) ++m.wrong;
        const PhotoPoint foot = photo(ObjectPoint{rule.first_mm + place, 0.0});
        const PhotoPoint tip = photo(ObjectPoint{rule.first_mm + place, drawn::mark_length_mm(rule, k)});
        const double length = std::hypot(tip.x - foot.x, tip.y - foot.y);
        const double mx = (tip.x - foot.x) / length;
        const double my = (tip.y - foot.y) / length;
        const double dx = mark.foot_px.x - foot.x;
        const double dy = mark.foot_px.y - foot.y;
        m.along_px += std::pow(dx * my - dy * mx, 2) / count;
        m.foot_px += std::pow(dx * mx + dy * my, 2) / count;
        m.tip_px += std::pow((mark.tip_px.x - tip.x) * mx + (mark.tip_px.y - tip.y) * my, 2) / count;
        const double ex = mark.tip_px.x - mark.foot_px.x;
        const double ey = mark.tip_px.y - mark.foot_px.y;
        m.lean_deg +=
            std::pow(degrees_per_radian * std::atan2(ex * my - ey * mx, ex * mx + ey * my), 2) / count;
    }
    m.along_px = std::sqrt(m.along_px);
    m.foot_px = std::sqrt(m.foot_px);
    m.tip_px = std::sqrt(m.tip_px);
    m.lean_deg = std::sqrt(m.lean_deg);
    return m;
}

/// A sharp, quiet picture at 5 px per mm: places good to a tenth of a pixel, ends to a pixel, directions to a
/// degree (a mm mark is 17 px long: a tenth of a pixel at each end is half a degree).
void expect_good(const Outcome<ScaleReference>& read, const Rule& rule, const View& view,
                 double least_share) {
    ASSERT_TRUE(read.ok()) << read.refusal().code;
    const MarkLine& line = read->lines.front();
    EXPECT_EQ(line.unit, rule.unit);
    EXPECT_NEAR(line.spacing_mm, drawn::spacing_mm(rule), 1e-9);
    EXPECT_GE(static_cast<double>(line.marks.size()), least_share * drawn::mark_count(rule));
    const Misfit m = misfit(line, rule, view);
    EXPECT_EQ(m.wrong, 0);
    EXPECT_LT(m.along_px, 0.1);
    EXPECT_LT(m.foot_px, 1.0);
    EXPECT_LT(m.tip_px, 1.0);
    EXPECT_LT(m.lean_deg, 1.0);
}

TEST(ReadRuler, MillimetresFromAbove) {
    const Rule rule;
    const View view;
    expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.98);
}

TEST(ReadRuler, AnyDirection) {
    const Rule rule;
    for (const double turn : {30.0, 90.0, 137.0, 180.0, 268.0, 331.0}) {
        SCOPED_TRACE(turn);
        View view;
        view.size = {900, 900};
        view.turn_deg = turn;
        expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.98);
    }
}

TEST(ReadRuler, TiltedTwentyDegrees) {
    for (const double axis : {0.0, 45.0, 90.0, 200.0}) {
        SCOPED_TRACE(axis);
        Rule rule;
        View view;
        view.size = {1000, 800};
        view.tilt_deg = 20.0;
        view.tilt_axis_deg = axis;
        view.turn_deg = 12.0;
        expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.95);
    }
}

TEST(ReadRuler, LightMarksOnDark) {
    Rule rule;
    rule.body = 50.0;
    rule.ink = 215.0;
    const View view;
    expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.98);
}

TEST(ReadRuler, InchesAndHalfMillimetres) {
    Rule rule;
    View view;
    rule.unit = LengthUnit::inch;
    for (const int divisions : {8, 16}) {
        rule.divisions = divisions;
        rule.long_mm = 9.0;
        expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.95);
    }
    rule = {};
    rule.divisions = 2;
    rule.thick_mm = 0.14;
    rule.length_mm = 90.0;
    view.px_per_mm = 8.0;
    view.blur_px = 0.5;
    expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.95);
}

TEST(ReadRuler, CountsAcrossACoveredStretch) {
    Rule rule;
    rule.covered_from_mm = 60.0;
    View view;
    view.tilt_deg = 10.0;
    const auto read = read_ruler(drawn::photo_of(rule, view));
    expect_good(read, rule, view, 0.8);
    const auto& marks = read->lines.front().marks;
    EXPECT_GT(std::abs(marks.back().position_mm - marks.front().position_mm), 135.0);
}

TEST(ReadRuler, CutByTheFrame) {
    Rule rule;
    rule.length_mm = 300.0;
    View view;
    view.turn_deg = 20.0;
    view.px_per_mm = 6.0;
    expect_good(read_ruler(drawn::photo_of(rule, view)), rule, view, 0.4);
}

TEST(ReadRuler, SmallPhotosAndFineMarks) {
    Rule rule;
    View view;
    view.size = {420, 280};
    view.px_per_mm = 2.7;
    view.blur_px = 0.4;
    view.noise = 1.0;
    const auto read = read_ruler(drawn::photo_of(rule, view));
    ASSERT_TRUE(read.ok()) << read.refusal().code;
    EXPECT_NEAR(read->lines.front().spacing_mm, 1.0, 1e-9);
    EXPECT_EQ(misfit(read->lines.front(), rule, view).wrong, 0);
}

TEST(ReadRuler, OutlineCoversTheBodyAndLittleElse) {
    const Rule rule;
    View view;
    view.turn_deg = 25.0;
    view.tilt_deg = 12.0;
    const auto read = read_ruler(drawn::photo_of(rule, view));
    ASSERT_TRUE(read.ok());
    const auto mask_of = [&](const std::vector<PhotoPoint>& polygon) {
        std::vector<cv::Point> points;
        for (const auto& p : polygon)
            points.emplace_back(static_cast<int>(std::lround(p.x)), static_cast<int>(std::lround(p.y)));
        cv::Mat1b mask(view.size, uchar{0});
        cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{points}, 255);
        return mask;
    };
    const auto photo = drawn::photo_from_rule(rule, view);
    const cv::Mat1b truth =
        mask_of({photo(ObjectPoint{0, 0}), photo(ObjectPoint{rule.length_mm, 0}),
                 photo(ObjectPoint{rule.length_mm, rule.width_mm}), photo(ObjectPoint{0, rule.width_mm})});
    const cv::Mat1b found = mask_of(read->outline_px);
    const double both = cv::countNonZero(truth & found);
    const double either = cv::countNonZero(truth | found);
    EXPECT_GT(both / either, 0.9);
}

TEST(ReadRuler, RuleOfClassTwo) {
    const Rule rule;
    const auto read = read_ruler(drawn::photo_of(rule, View{}));
    ASSERT_TRUE(read.ok());
    const auto& marks = read->lines.front().marks;
    const double span = std::abs(marks.back().position_mm - marks.front().position_mm);
    // Directive 2014/32/EU, annex X, MI-008: 0.3 mm + 0.2 mm per metre begun; rectangular law, 1/sqrt(3).
    EXPECT_NEAR(read->object_relative_std * span, 0.5 / std::sqrt(3.0), 1e-9);
}

/// Short even rows of strokes above and below the rule: toothed ornaments, print, cloth.
cv::Mat1f with_ornaments(const Photo& photo) {
    cv::Mat1f picture;
    photo.grey.convertTo(picture, CV_32F);
    constexpr int strokes = 12;
    constexpr int apart_px = 6;
    constexpr int tile_px = 84;
    for (int y = tile_px / 2; y < picture.rows; y += tile_px) {
        if (std::abs(y - picture.rows / 2) < 160) continue;
        for (int x = tile_px / 2; x < picture.cols; x += tile_px) {
            const double turn = 0.7 * (x + 3 * y) / tile_px;  // no two neighbours make a row
            const cv::Point2d along(std::cos(turn), std::sin(turn));
            const cv::Point2d reach(-12.0 * along.y, 12.0 * along.x);
            for (int k = 0; k < strokes; ++k) {
                const cv::Point2d middle = cv::Point2d(x, y) + along * ((k - 0.5 * strokes) * apart_px);
                cv::line(picture, middle - reach, middle + reach, cv::Scalar(30.0), 2, cv::LINE_AA);
            }
        }
    }
    return picture;
}

TEST(ReadRuler, OrnamentsDoNotHideARule) {
    Rule rule;
    rule.body = 150.0;  // a faint one, whose marks are less regular than the ornaments
    rule.ink = 118.0;
    View view;
    view.size = {1500, 1100};
    view.noise = 5.0;
    View as_it_is;
    as_it_is.blur_px = 0.0;
    as_it_is.noise = 0.0;
    const auto read = read_ruler(drawn::finished(with_ornaments(drawn::photo_of(rule, view)), as_it_is));
    ASSERT_TRUE(read.ok());
    const Misfit m = misfit(read->lines.front(), rule, view);
    EXPECT_EQ(m.wrong, 0);
    EXPECT_GT(read->lines.front().marks.size(), 100U);
}

TEST(ReadRuler, SameBytesEveryTime) {
    const Photo photo = drawn::photo_of(Rule{}, View{});
    const auto a = read_ruler(photo);
    const auto b = read_ruler(photo);
    ASSERT_TRUE(a.ok() && b.ok());
    ASSERT_EQ(a->lines.front().marks.size(), b->lines.front().marks.size());
    for (std::size_t i = 0; i < a->lines.front().marks.size(); ++i) {
        EXPECT_EQ(a->lines.front().marks[i].foot_px.x, b->lines.front().marks[i].foot_px.x);
        EXPECT_EQ(a->lines.front().marks[i].tip_px.y, b->lines.front().marks[i].tip_px.y);
    }
}

TEST(ReadRuler, AToldUnitDoesNotOverruleClearMarks) {
    const Photo photo = drawn::photo_of(Rule{}, View{});
    RulerOptions told;
    told.told_unit = LengthUnit::inch;
    const auto read = read_ruler(photo, told);
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.refusal().code, "unit-conflict");
    told.told_unit = LengthUnit::mm;
    EXPECT_TRUE(read_ruler(photo, told).ok());
}

TEST(ReadRuler, EmptyPhotoIsMisuse) { EXPECT_THROW((void)read_ruler(Photo{}), std::invalid_argument); }

}  // namespace
}  // namespace ridgetally

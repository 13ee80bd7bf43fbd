#include "report/yarn_plot.h"

#include <gtest/gtest.h>

#include <sstream>

#include "report/draw/palette.h"
#include "report/plot_axis.h"
#include "report/wrap.h"
#include "unit/report/example_result.h"

namespace ridgetally {
namespace {

HookGauge gauge_on(double hook_mm, double stitches, double std, FabricState state) {
    HookGauge gauge;
    gauge.kind = {hook_mm, StitchFamily::sc, Worked::flat, state};
    gauge.stitches_per_10cm = {stitches, std, {}};
    return gauge;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

TEST(PlotAxis, HasRoundMarksThatHoldEveryValue) {
    for (const auto& values :
         std::vector<std::vector<double>>{{15.1, 19.2}, {8.0}, {0.31, 0.9}, {1200.0, 1900.0}}) {
        const PlotAxis axis = plot_axis(values, 7);
        for (const double value : values) {
            EXPECT_GE(axis.place(value), -1e-9);
            EXPECT_LE(axis.place(value), 1.0 + 1e-9);
        }
        EXPECT_GE(axis.marks.size(), 2U);
        EXPECT_LE(axis.marks.size(), 9U);
    }
    EXPECT_EQ(plot_axis({15.1, 18.9}, 7).marks, (std::vector<double>{15.0, 16.0, 17.0, 18.0, 19.0}));
    EXPECT_THROW((void)plot_axis({}, 5), std::invalid_argument);
}

TEST(GaugePlot, MarksStandUnderTheirNumbers) {
    const std::vector<HookGauge> gauges = {gauge_on(4.0, 18.0, 0.5, FabricState::relaxed),
                                           gauge_on(5.0, 16.0, 0.5, FabricState::washed)};
    const auto lines = lines_of(gauge_plot_text(gauges, SizeUnit::cm));
    ASSERT_EQ(lines.size(), 5U);
    EXPECT_EQ(lines[3].find('o'), lines[1].find("18") + 1) << lines[1] << "\n" << lines[3];
    EXPECT_EQ(lines[4].find('#'), lines[1].find("16") + 1) << lines[1] << "\n" << lines[4];
    EXPECT_EQ(lines[3].find('#'), std::string::npos);
    for (const auto& line : lines) EXPECT_LE(columns_of(line), 80U);
    EXPECT_EQ(gauge_plot_text({}, SizeUnit::cm), "");
}

TEST(GaugePlot, SvgHasEveryGaugeAndASafeTitle) {
    HookGauge unknown_hook = gauge_on(4.0, 18.0, 0.5, FabricState::relaxed);
    unknown_hook.kind.hook_mm.reset();
    const std::vector<HookGauge> gauges = {gauge_on(4.0, 18.0, 0.5, FabricState::relaxed),
                                           gauge_on(4.0, 17.5, 0.5, FabricState::washed), unknown_hook};
    const std::string svg = svg_of(gauge_plot("<Moss> & \"co\"\n\x1B", gauges, example_catalog(), {}));
    EXPECT_NE(svg.find("&lt;Moss&gt; &amp; &quot;co&quot;\u240A\u241B"), std::string::npos);
    EXPECT_EQ(svg.find("<Moss>"), std::string::npos);
    std::size_t titles = 0;
    for (auto at = svg.find("<title>"); at != std::string::npos; at = svg.find("<title>", at + 1)) ++titles;
    EXPECT_EQ(titles, 2U);
    EXPECT_NE(svg_of(gauge_plot("Moss", {unknown_hook}, example_catalog(), {})).find("No gauge"),
              std::string::npos);
}

/// Texts of a drawing at one height.
std::vector<std::string> words_at(const Drawing& drawing, double y) {
    std::vector<std::string> words;
    for (const auto& part : drawing.parts) {
        const auto* text = std::get_if<DrawnText>(&part);
        if (text != nullptr && std::abs(text->y - y) < 1e-9) words.push_back(text->text);
    }
    return words;
}

// 110 mm high, 24 mm below the plot, hooks 5 mm below that.
constexpr double hook_labels_mm = 110.0 - 24.0 + 5.0;

TEST(GaugePlot, HooksAreMarkedWhereTheyWereUsedAndNowhereElse) {
    const auto plot = [](const std::vector<double>& hooks) {
        std::vector<HookGauge> gauges;
        for (const double hook : hooks) gauges.push_back(gauge_on(hook, 18.0, 0.5, FabricState::relaxed));
        return gauge_plot("Moss", gauges, example_catalog(), {});
    };
    EXPECT_EQ(words_at(plot({4.5}), hook_labels_mm), std::vector<std::string>{"4.5"});
    EXPECT_EQ(words_at(plot({4.5, 5.0, 9.0}), hook_labels_mm), (std::vector<std::string>{"4.5", "5", "9"}));
    // 3.75 and 4 mm would stand in each other's way.
    EXPECT_EQ(words_at(plot({3.75, 4.0, 12.0}), hook_labels_mm), (std::vector<std::string>{"3.75", "12"}));
}

TEST(GaugePlot, PixelsShowTheMarksWhereTheDrawingHasThem) {
    const Drawing plot = gauge_plot(
        "Moss",
        {gauge_on(4.0, 18.0, 0.5, FabricState::relaxed), gauge_on(5.0, 16.0, 0.5, FabricState::washed)},
        example_catalog(), {});
    constexpr double px_per_mm = 6.0;
    const cv::Mat picture = picture_of(plot, px_per_mm);
    EXPECT_EQ(picture.cols, 960);
    EXPECT_EQ(picture.rows, 660);
    const auto pixel = [&](double x_mm, double y_mm) {
        return picture.at<cv::Vec3b>(cvRound(y_mm * px_per_mm), cvRound(x_mm * px_per_mm));
    };
    int marks = 0;
    for (const auto& part : plot.parts) {
        const auto* mark = std::get_if<DrawnMark>(&part);
        if (mark == nullptr) continue;
        ++marks;
        const bool ring = mark->form == MarkForm::ring;
        const cv::Scalar inside = ring ? cv::Scalar(255, 255, 255) : palette::row_ridge;
        EXPECT_EQ(pixel(mark->x, mark->y), cv::Vec3b(inside[0], inside[1], inside[2])) << mark->title;
        if (ring) {
            EXPECT_NE(pixel(mark->x + 1.5, mark->y), cv::Vec3b(255, 255, 255));
        }
    }
    EXPECT_EQ(marks, 4) << "two gauges and the legend";
}

}  // namespace
}  // namespace ridgetally

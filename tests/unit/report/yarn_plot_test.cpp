#include "report/yarn_plot.h"

#include <gtest/gtest.h>

#include <sstream>

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
    const std::string svg = gauge_plot_svg("<Moss> & \"co\"\n\x1B", gauges, example_catalog(), {});
    EXPECT_NE(svg.find("&lt;Moss&gt; &amp; &quot;co&quot;\u240A\u241B"), std::string::npos);
    EXPECT_EQ(svg.find("<Moss>"), std::string::npos);
    std::size_t titles = 0;
    for (auto at = svg.find("<title>"); at != std::string::npos; at = svg.find("<title>", at + 1)) ++titles;
    EXPECT_EQ(titles, 2U);
    EXPECT_NE(gauge_plot_svg("Moss", {unknown_hook}, example_catalog(), {}).find("No gauge"),
              std::string::npos);
}

}  // namespace
}  // namespace ridgetally

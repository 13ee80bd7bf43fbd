#include "advice/hook_response.h"

#include <gtest/gtest.h>

#include <cmath>

#include "advice/normal.h"
#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

const HookPractice& practice() { return real_catalog().hook_practice; }

HookResponsePoint point(double hook_mm, double width_mm, double relative = 0.005) {
    return {hook_mm, measured(width_mm, {{"test", relative}})};
}

/// A yarn whose stitches grow as hook^exponent.
HookSeries yarn(double exponent, std::initializer_list<double> hooks) {
    HookSeries points;
    for (const double hook : hooks) points.push_back(point(hook, 3.0 * std::pow(hook, exponent)));
    return points;
}

TEST(HookResponse, WithoutARecordIsThePublishedOne) {
    const HookResponse response = learn_response(point(5.0, 8.0), {}, practice());
    EXPECT_DOUBLE_EQ(response.exponent.value, 0.5);
    EXPECT_NEAR(response.exponent.std, 0.2, 1e-12);  // 0.3 to 1.1 as four standard deviations
    EXPECT_NE(response.source.find("prior"), std::string::npos);
    EXPECT_NEAR(predict_width(response, 5.0).width_mm().value, 8.0, 1e-9);
    EXPECT_NEAR(predict_width(response, 6.0).width_mm().value, 8.0 * std::sqrt(1.2), 1e-9);
    EXPECT_GT(predict_width(response, 8.0).std_log, predict_width(response, 5.5).std_log);
}

TEST(HookResponse, LearnsFromTheYarnItself) {
    HookRecord record;
    record.this_yarn = yarn(0.9, {3.5, 4.5, 6.0, 8.0});
    const HookResponse learned = learn_response(yarn(0.9, {5.0}).front(), record, practice());
    EXPECT_NEAR(learned.exponent.value, 0.9, 0.05);
    EXPECT_LT(learned.exponent.std, 0.05);
    EXPECT_EQ(learned.hooks_of_this_yarn, 5);
    EXPECT_NE(learned.source.find("5 hooks with this yarn"), std::string::npos);
    EXPECT_NEAR(predict_width(learned, 10.0).width_mm().value, 3.0 * std::pow(10.0, 0.9), 0.5);
}

TEST(HookResponse, OtherYarnsOfTheMakerMoveThePriorLess) {
    HookRecord record;
    for (int i = 0; i < 4; ++i) record.other_yarns.push_back({yarn(0.9, {4.0, 6.0, 8.0})});
    record.other_yarns.push_back({yarn(0.3, {5.0})});  // one hook says nothing
    const HookResponse learned = learn_response(point(5.0, 8.0), record, practice());
    EXPECT_GT(learned.exponent.value, 0.6);
    EXPECT_LT(learned.exponent.value, 0.9);
    EXPECT_LT(learned.exponent.std, 0.2);
    EXPECT_EQ(learned.other_yarns, 4);
    HookRecord both = record;
    both.this_yarn = yarn(0.9, {3.5, 8.0});
    EXPECT_GT(learn_response(yarn(0.9, {5.0}).front(), both, practice()).exponent.value,
              learned.exponent.value);
}

// By hand: two swatches of one width on 5 and 5.5 mm have the slope 0 with variance 2 (0.03^2 / 3 + 0.005^2)
// / ln(1.1)^2 = 0.0716; the prior 0.5 has 0.04. Together 0.5 / 0.04 / (1 / 0.04 + 1 / 0.0716) = 0.321, spread
// 0.160: one step says less than the prior.
TEST(HookResponse, OneNoisyStepSaysLessThanThePrior) {
    HookRecord record;
    record.this_yarn = {point(5.5, 8.0)};
    const HookResponse learned = learn_response(point(5.0, 8.0), record, practice());
    EXPECT_NEAR(learned.exponent.value, 0.321, 0.001);
    EXPECT_NEAR(learned.exponent.std, 0.160, 0.001);
}

/// The same series, every stitch wider by a share: washed, say.
HookSeries wider(HookSeries series, double share) {
    for (auto& p : series) p.stitch_width_mm = scaled(p.stitch_width_mm, 1.0 + share);
    return series;
}

// Swatches in another state tell how width grows with the hook, and nothing of how wide a stitch is now.
TEST(HookResponse, ALevelOfItsOwnForEveryStateOfTheFabric) {
    HookRecord alike;
    alike.this_yarn = yarn(0.9, {3.5, 4.5, 6.0, 8.0});
    HookRecord otherwise;
    otherwise.this_yarn_otherwise = {wider(alike.this_yarn, 0.1)};
    const HookResponsePoint now = yarn(0.9, {5.0}).front();
    const HookResponse learned = learn_response(now, otherwise, practice());
    EXPECT_NEAR(learned.exponent.value, 0.9, 0.05);
    EXPECT_EQ(learned.hooks_of_this_yarn, 4) << "the swatch itself says nothing of the growth";
    EXPECT_NEAR(predict_width(learned, 5.0).width_mm().value, now.stitch_width_mm.value, 1e-9);
    EXPECT_GT(predict_width(learned, 5.0).std_log,
              predict_width(learn_response(now, alike, practice()), 5.0).std_log);
    // One hook unwashed and another washed: the difference may be the wash.
    HookRecord mixed;
    mixed.this_yarn_otherwise = {wider(yarn(0.9, {8.0}), 0.1)};
    EXPECT_DOUBLE_EQ(learn_response(now, mixed, practice()).exponent.value, practice().response.usual);
}

TEST(HookResponse, StaysWithinWhatHasBeenPublished) {
    HookRecord backwards;
    backwards.this_yarn = yarn(-2.0, {3.0, 6.0, 9.0});
    EXPECT_DOUBLE_EQ(learn_response(yarn(-2.0, {5.0}).front(), backwards, practice()).exponent.value,
                     practice().response.low);
}

// The published series of double crochet on four hooks, as record: the exponent learned is its own.
TEST(HookResponse, FitsThePublishedSeries) {
    const auto& series = practice().published_responses.front();
    HookRecord record;
    for (std::size_t i = 1; i < series.tools_mm.size(); ++i)
        record.this_yarn.push_back(point(series.tools_mm[i], span_4in_mm / series.counts[i]));
    const auto learned =
        learn_response(point(series.tools_mm[0], span_4in_mm / series.counts[0]), record, practice());
    EXPECT_NEAR(learned.exponent.value, series.exponent, 0.05);
}

// Table of the standard normal distribution: 0.8413 at 1, 0.9750 at 1.96, 0.9987 at 3.
TEST(Normal, IsThatOfTheTable) {
    EXPECT_NEAR(normal_cdf(0.0), 0.5, 1e-12);
    EXPECT_NEAR(normal_cdf(1.0), 0.8413, 5e-5);
    EXPECT_NEAR(normal_cdf(1.96), 0.9750, 5e-5);
    EXPECT_NEAR(normal_cdf(-3.0), 1.0 - 0.99865, 5e-6);
    EXPECT_NEAR(normal_between(2.0, 2.0, 0.0, 4.0), 0.6827, 5e-5);
    EXPECT_EQ(normal_between(1.0, 0.0, 0.0, 2.0), 1.0);
    EXPECT_EQ(normal_between(3.0, 0.0, 0.0, 2.0), 0.0);
    EXPECT_THROW((void)normal_between(0.0, 1.0, 1.0, 0.0), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally

#include "advice/yarn_needed.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/trade_units.h"
#include "core/units.h"
#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

YarnRequest request(double mass_g, double area_mm2) {
    YarnRequest request;
    request.weighed = WeighedPiece{exact(mass_g), exact(area_mm2), "test"};
    request.margin = 0.0;
    return request;
}

PiecesWanted piece(double area_mm2, int count = 1) { return {"piece", count, area_mm2, std::nullopt}; }

// A published worked example: a swatch of 6 x 6 in weighs 4 g of a ball of 50 g and 87 yd; that is 8 % of the
// ball, 6.96 yd; 60 x 60 in need 3600 / 36 x 6.96 = 696 yd (printed with 7 yd: 700), and 400 g, 8 balls.
TEST(YarnNeeded, IsThatOfThePublishedExample) {
    YarnRequest blanket = request(4.0, 36 * mm2_per_square_inch);
    blanket.pieces = {piece(3600 * mm2_per_square_inch)};
    blanket.ball = parse_ball("50g/87yd");
    const YarnNeed need = yarn_needed(blanket, real_catalog()).value();
    EXPECT_NEAR(need.mass_g.value, 400.0, 1e-9);
    EXPECT_NEAR(*need.length_with_margin_mm / mm_per_yard, 696.0, 1e-6);
    EXPECT_NEAR(*need.length_with_margin_mm / mm_per_yard, 700.0, 5.0);
    EXPECT_EQ(need.balls_to_have, 8);
    blanket.pieces = {piece(36 * mm2_per_square_inch)};
    EXPECT_NEAR(*yarn_needed(blanket, real_catalog())->length_with_margin_mm / mm_per_yard, 6.96, 1e-6);
}

// The same example: 4 g in 6 x 6 in, 232.2576 cm2 at exactly 2.54 cm the inch, are 1.7222 g for 100 cm2.
TEST(YarnNeeded, SaysHowTheYarnOfAWeighedSwatchCameAbout) {
    const Measured side = measured(6 * mm_per_inch, {{"reading", 0.01}});
    const auto piece = weighed_rectangle(exact(4.0), side, side, "the maker");
    ASSERT_TRUE(piece.has_value());
    const Workings workings = workings_of(*piece);
    ASSERT_EQ(workings.size(), 3U);
    EXPECT_NEAR(workings[1].result.value, 232.2576, 1e-9);
    EXPECT_NEAR(workings[2].result.value, 1.7222, 5e-5);
    // Two sides, each known to 1 %: the root of two, whatever is made of them.
    EXPECT_NEAR(workings[1].result.relative_std(), 0.01 * std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(workings[2].result.relative_std(), 0.01 * std::sqrt(2.0), 1e-9);
    ASSERT_EQ(workings[1].inputs.size(), 2U);
    EXPECT_NEAR(workings[1].inputs[0].value, 152.4, 1e-9);
    EXPECT_FALSE(weighed_rectangle(exact(4.0), side, std::nullopt, "the maker").has_value());
}

// Published areas: a back of 20 x 28 in is 560 square inches, two are 1120.
TEST(YarnNeeded, PiecesAddUp) {
    YarnRequest two = request(10.0, 100 * mm2_per_square_inch);
    two.pieces = {piece(560 * mm2_per_square_inch, 2)};
    EXPECT_NEAR(yarn_needed(two, real_catalog())->mass_g.value, 112.0, 1e-9);
    two.pieces.push_back({"hat", 3, std::nullopt, exact(80.0)});
    EXPECT_NEAR(yarn_needed(two, real_catalog())->mass_g.value, 352.0, 1e-9);
}

// Seven equal swatches weighed 12.3 to 13.3 g (published): +-4 %, evenly likely, 2.3 % standard.
TEST(YarnNeeded, CarriesTheSpreadOfEqualSwatches) {
    YarnRequest one = request(10.0, 22500.0);
    one.pieces = {piece(22500.0)};
    EXPECT_NEAR(yarn_needed(one, real_catalog())->mass_g.relative_std(), 0.0231, 1e-4);
}

TEST(YarnNeeded, MarginIsUsualUnlessTold) {
    YarnRequest one = request(10.0, 22500.0);
    one.pieces = {piece(22500.0)};
    one.margin.reset();
    EXPECT_NEAR(yarn_needed(one, real_catalog())->mass_with_margin_g, 11.0, 1e-9);
    one.margin = 0.05;
    EXPECT_NEAR(yarn_needed(one, real_catalog())->mass_with_margin_g, 10.5, 1e-9);
}

TEST(YarnNeeded, StockIsEnoughBarelyOrNot) {
    YarnRequest one = request(100.0, 22500.0);
    one.pieces = {piece(22500.0)};
    one.margin = 0.1;
    one.ball = Ball{50.0, std::nullopt};
    const auto enough = [&](Stock stock) {
        one.stock = stock;
        return yarn_needed(one, real_catalog())->enough;
    };
    EXPECT_EQ(enough({.balls = 2.5, .mass_g = {}}), Enough::yes);     // 125 g against 110
    EXPECT_EQ(enough({.balls = 2.0, .mass_g = {}}), Enough::barely);  // 100 g against 100, without margin
    EXPECT_EQ(enough({.balls = {}, .mass_g = 90.0}), Enough::no);
    one.ball.reset();
    one.stock = Stock{.balls = 2.0, .mass_g = {}};
    EXPECT_EQ(yarn_needed(one, real_catalog()).refusal().code, "no-ball");
}

TEST(YarnNeeded, WithoutAWeightItIsRefused) {
    YarnRequest none;
    none.pieces = {piece(22500.0)};
    EXPECT_EQ(yarn_needed(none, real_catalog()).refusal().code, "no-weight");
}

TEST(YarnNeeded, LightSwatchesOnCoarseScalesAreTold) {
    YarnRequest light = request(4.0, 22500.0);
    light.weighed->mass_g = measured(4.0, {{"scales", 0.29 / 4.0}});  // read to 1 g
    light.pieces = {piece(22500.0)};
    EXPECT_TRUE(has_reason(yarn_needed(light, real_catalog())->reasons, "swatch-too-light"));
    EXPECT_FALSE(has_reason(yarn_needed(
                                [] {
                                    auto r = request(40.0, 22500.0);
                                    r.pieces = {piece(22500.0)};
                                    return r;
                                }(),
                                real_catalog())
                                ->reasons,
                            "swatch-too-light"));
}

// A ball of 100 g and 177 m (194 yd) is a common one; 1 yd is 0.9144 m.
TEST(Ball, IsReadFromItsBand) {
    EXPECT_DOUBLE_EQ(parse_ball("50g/87yd")->mass_g, 50.0);
    EXPECT_DOUBLE_EQ(*parse_ball("50g/87yd")->length_mm, 87 * 914.4);
    EXPECT_DOUBLE_EQ(*parse_ball("100 g = 177 m")->length_mm, 177000.0);
    EXPECT_NEAR(*parse_ball("3.5oz/194yd")->length_mm / mm_per_m, 177.4, 0.05);
    EXPECT_FALSE(parse_ball("50g")->length_mm);
    for (const char* bad : {"", "g", "50g/", "50g/87", "87yd/50g", "50g/87yd/3"})
        EXPECT_FALSE(parse_ball(bad)) << bad;
}

}  // namespace
}  // namespace ridgetally

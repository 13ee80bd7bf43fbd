#include "yarns/chosen_gauge.h"

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

Measurement in_state(Measurement m, std::optional<FabricState> state) {
    m.state = state;
    return m;
}

Measurement in_rounds(Measurement m) {
    m.worked = Worked::round;
    return m;
}

/// Swatches numbered from 1 on.
std::vector<HookGauge> gauges(const std::vector<Measurement>& measurements) {
    std::vector<StoredMeasurement> stored;
    for (const auto& m : measurements) stored.push_back({static_cast<std::int64_t>(stored.size()) + 1, m});
    return gauge_by_hook(stored);
}

bool has_reason(const ChosenGauge& chosen, const std::string& code) {
    return std::any_of(chosen.reasons.begin(), chosen.reasons.end(),
                       [&](const Reason& reason) { return reason.code == code; });
}

const Measurement on_5mm = swatch_on(5.0, 16.0, 18.0);

TEST(ChosenGauge, TheOnlyOneIsTakenAndSaidWhich) {
    const auto chosen = must(choose_gauge(moss(), gauges({on_5mm, on_5mm}), {}));
    EXPECT_EQ(chosen.gauge.numbers, (std::vector<std::int64_t>{1, 2}));
    EXPECT_EQ(chosen.source,
              "record of yarns, \"Fennelwick DK, Moss\": 5 mm hook, sc, flat, relaxed, number 1, 2");
    EXPECT_TRUE(has_reason(chosen, "unwashed-gauge"));
}

TEST(ChosenGauge, WashedGoesBeforeRelaxedBeforeFreshBeforeNotTold) {
    std::vector<Measurement> all;
    const std::vector<std::optional<FabricState>> states = {std::nullopt, FabricState::off_hook,
                                                            FabricState::relaxed, FabricState::washed};
    for (const auto& state : states) {
        all.push_back(in_state(on_5mm, state));
        const auto chosen = must(choose_gauge(moss(), gauges(all), {}));
        EXPECT_EQ(chosen.gauge.kind.state, state);
        EXPECT_EQ(has_reason(chosen, "washed-gauge"), state == FabricState::washed);
        EXPECT_EQ(has_reason(chosen, "unwashed-gauge"), state != FabricState::washed);
    }
    GaugeChoice relaxed;
    relaxed.told.state = FabricState::relaxed;
    const auto chosen = must(choose_gauge(moss(), gauges(all), relaxed));
    EXPECT_EQ(chosen.gauge.kind.state, FabricState::relaxed);
    EXPECT_TRUE(chosen.reasons.empty()) << "what was asked for needs no remark";
}

TEST(ChosenGauge, AHookThatIsNotToldIsNeverGuessed) {
    const auto two = gauges({on_5mm, swatch_on(6.0, 14.5, 16.0)});
    const auto open = choose_gauge(moss(), two, {});
    ASSERT_EQ(code_of(open), "which-gauge");
    EXPECT_NE(open.refusal().message.find("6 mm hook"), std::string::npos) << open.refusal().message;
    EXPECT_NE(open.refusal().hint.find("--hook"), std::string::npos);
    GaugeChoice six;
    six.told.hook_mm = 6.0;
    EXPECT_EQ(must(choose_gauge(moss(), two, six)).gauge.numbers, std::vector<std::int64_t>{2});
    GaugeChoice seven;
    seven.told.hook_mm = 7.0;
    EXPECT_EQ(code_of(choose_gauge(moss(), two, seven)), "no-such-gauge");
    EXPECT_EQ(code_of(choose_gauge(moss(), {}, {})), "no-such-gauge");
}

TEST(ChosenGauge, NorIsTheStitch) {
    Measurement dc = on_5mm;
    dc.stitch = StitchFamily::dc;
    const auto two = gauges({on_5mm, dc});
    EXPECT_EQ(code_of(choose_gauge(moss(), two, {})), "which-gauge");
    GaugeChoice in_dc;
    in_dc.told.stitch = StitchFamily::dc;
    EXPECT_EQ(must(choose_gauge(moss(), two, in_dc)).gauge.kind.stitch, StitchFamily::dc);
}

TEST(ChosenGauge, HatsRatherTakeWorkInRounds) {
    const auto both = gauges({on_5mm, in_rounds(on_5mm)});
    EXPECT_EQ(code_of(choose_gauge(moss(), both, {})), "which-gauge");
    GaugeChoice hat;
    hat.rather = Worked::round;
    EXPECT_EQ(must(choose_gauge(moss(), both, hat)).gauge.kind.worked, Worked::round);
    EXPECT_EQ(must(choose_gauge(moss(), gauges({on_5mm}), hat)).gauge.kind.worked, Worked::flat);
}

}  // namespace
}  // namespace ridgetally

#include "yarns/stock.h"

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

using Stock = WithRecord;

TEST_F(Stock, AYarnComesBackAsItWasPutIn) {
    const Record record = open();
    must(add_yarn(record, moss()));
    EXPECT_EQ(must(find_yarn(record, moss().name)).yarn, moss());
    EXPECT_EQ(must(find_yarn(open(Access::look), moss().name)).yarn, moss());
}

TEST_F(Stock, TheNameAloneIsEnough) {
    const Record record = open();
    must(add_yarn(record, named("Oddmere Four")));
    const Yarn yarn = must(find_yarn(record, "Oddmere Four")).yarn;
    EXPECT_EQ(yarn, named("Oddmere Four"));
    EXPECT_FALSE(yarn.balls);
    EXPECT_EQ(code_of(add_yarn(record, named(" \n "))), "bad-value");
}

TEST_F(Stock, NamesOfAnyScriptStayWhatTheyAre) {
    const Record record = open();
    for (const auto& name : awkward_names()) must(add_yarn(record, named(name)));
    for (const auto& name : awkward_names()) EXPECT_EQ(must(find_yarn(record, name)).yarn.name, name);
    EXPECT_EQ(must(list_yarns(record)).size(), awkward_names().size());
}

TEST_F(Stock, BlanksAroundANameDoNotMakeAnother) {
    const Record record = open();
    must(add_yarn(record, named("  Oddmere Four\n")));
    EXPECT_EQ(must(find_yarn(record, "Oddmere Four ")).yarn.name, "Oddmere Four");
    EXPECT_EQ(code_of(add_yarn(record, named("Oddmere Four"))), "name-taken");
}

TEST_F(Stock, AMissingYarnIsToldWithNamesThatAreLikeIt) {
    const Record record = open();
    must(add_yarn(record, moss()));
    const auto missing = find_yarn(record, "moss");
    EXPECT_EQ(code_of(missing), "no-such-yarn");
    EXPECT_NE(missing.refusal().hint.find(moss().name), std::string::npos) << missing.refusal().hint;
    EXPECT_EQ(find_yarn(record, "%").refusal().hint.find(moss().name), std::string::npos);
}

TEST_F(Stock, AChangeIsMadeOrLeft) {
    const Record record = open();
    must(add_yarn(record, moss()));
    must(add_yarn(record, named("Oddmere Four")));
    const auto renamed = change_yarn(record, moss().name, [](Yarn yarn) -> Outcome<Yarn> {
        yarn.name = "Fennelwick DK, Fern";
        yarn.balls.reset();
        return yarn;
    });
    EXPECT_EQ(must(renamed).name, "Fennelwick DK, Fern");
    EXPECT_EQ(code_of(find_yarn(record, moss().name)), "no-such-yarn");

    const auto to_taken = change_yarn(record, "Oddmere Four", [](Yarn yarn) -> Outcome<Yarn> {
        yarn.name = "Fennelwick DK, Fern";
        return yarn;
    });
    EXPECT_EQ(code_of(to_taken), "name-taken");
    const auto bad = change_yarn(record, "Oddmere Four", [](Yarn yarn) -> Outcome<Yarn> {
        yarn.ball_g = -1.0;
        return yarn;
    });
    EXPECT_EQ(code_of(bad), "bad-value");
    EXPECT_EQ(must(find_yarn(record, "Oddmere Four")).yarn, named("Oddmere Four"));
}

TEST_F(Stock, UseTakesOffWhatIsLeft) {
    const Record record = open();
    must(add_yarn(record, moss()));
    EXPECT_DOUBLE_EQ(must(use_yarn(record, moss().name, {1.5, AmountUnit::balls})).balls.value(), 2.0);
    EXPECT_DOUBLE_EQ(must(use_yarn(record, moss().name, {25.0, AmountUnit::grams})).balls.value(), 1.5);
    EXPECT_DOUBLE_EQ(must(use_yarn(record, moss().name, {60.0, AmountUnit::metres})).balls.value(), 1.0);
    EXPECT_EQ(code_of(use_yarn(record, moss().name, {1.25, AmountUnit::balls})), "not-enough");
    // Three thirds are a whole, whatever binary fractions make of them.
    for (int i = 0; i < 3; ++i) must(use_yarn(record, moss().name, {1.0 / 3.0, AmountUnit::balls}));
    EXPECT_EQ(must(find_yarn(record, moss().name)).yarn.balls, 0.0);
}

TEST_F(Stock, UseOfWhatIsNotKnownIsRefused) {
    const Record record = open();
    must(add_yarn(record, named("Oddmere Four")));
    EXPECT_EQ(code_of(use_yarn(record, "Oddmere Four", {1.0, AmountUnit::balls})), "unknown-amount");
    must(change_yarn(record, "Oddmere Four", [](Yarn yarn) -> Outcome<Yarn> {
        yarn.balls = 2.0;
        return yarn;
    }));
    EXPECT_EQ(code_of(use_yarn(record, "Oddmere Four", {30.0, AmountUnit::grams})), "unknown-amount");
}

TEST_F(Stock, ListIsSortedAndCounts) {
    const Record record = open();
    must(add_yarn(record, named("b")));
    must(add_yarn(record, named("a")));
    must(save_measurement(record, "b", swatch_on(5.0, 13.0, 15.0)));
    const auto lines = must(list_yarns(record));
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_EQ(lines[0].yarn.name, "a");
    EXPECT_EQ(lines[1].measurements, 1);
}

}  // namespace
}  // namespace ridgetally

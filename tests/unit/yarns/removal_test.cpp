#include "yarns/removal.h"

#include "unit/yarns/example_yarns.h"
#include "yarns/exchange.h"

namespace ridgetally {
namespace {

using RemovalFromRecord = WithRecord;

TEST_F(RemovalFromRecord, ComesBackWithEverythingThatBelongsToIt) {
    const Record record = open();
    must(add_yarn(record, moss()));
    must(save_measurement(record, moss().name, swatch_on(4.5, 14.0, 16.0)));
    const std::string before = must(export_json(record));

    EXPECT_EQ(must(remove_yarn(record, moss().name)).yarn, moss().name);
    EXPECT_TRUE(must(list_yarns(record)).empty());
    EXPECT_EQ(code_of(measurements_of(record, moss().name, Reports::left)), "no-such-yarn");
    EXPECT_EQ(code_of(remove_measurement(record, 1)), "no-such-measurement");

    EXPECT_EQ(must(undo_removal(open())).yarn, moss().name);
    EXPECT_EQ(must(export_json(record)), before);
}

TEST_F(RemovalFromRecord, IsUndoneLastFirst) {
    const Record record = open();
    must(add_yarn(record, moss()));
    const auto number = must(save_measurement(record, moss().name, swatch_on(4.5, 14.0, 16.0)));
    must(add_yarn(record, named("Oddmere Four")));
    must(remove_yarn(record, "Oddmere Four"));
    EXPECT_EQ(must(remove_measurement(record, number)).number, number);
    must(remove_yarn(record, moss().name));

    EXPECT_EQ(must(undo_removal(record)).yarn, moss().name);
    EXPECT_TRUE(must(measurements_of(record, moss().name, Reports::left)).empty());
    EXPECT_EQ(must(undo_removal(record)).number, number);
    EXPECT_EQ(must(measurements_of(record, moss().name, Reports::left)).size(), 1U);
    EXPECT_EQ(must(undo_removal(record)).yarn, "Oddmere Four");
    EXPECT_EQ(code_of(undo_removal(record)), "nothing-removed");
}

TEST_F(RemovalFromRecord, FreesTheNameAndIsNotUndoneOverTheNewOne) {
    const Record record = open();
    must(add_yarn(record, moss()));
    must(remove_yarn(record, moss().name));
    must(add_yarn(record, named(moss().name)));
    EXPECT_EQ(code_of(undo_removal(record)), "name-taken");
    EXPECT_EQ(must(find_yarn(record, moss().name)).yarn, named(moss().name));
    must(change_yarn(record, moss().name, [](Yarn yarn) -> Outcome<Yarn> {
        yarn.name += " (new)";
        return yarn;
    }));
    must(undo_removal(record));
    EXPECT_EQ(must(find_yarn(record, moss().name)).yarn, moss());
}

TEST_F(RemovalFromRecord, NumbersAreNeverUsedTwice) {
    const Record record = open();
    must(add_yarn(record, moss()));
    const auto first = must(save_measurement(record, moss().name, swatch_on(4.5, 14.0, 16.0)));
    must(remove_measurement(record, first));
    EXPECT_GT(must(save_measurement(record, moss().name, swatch_on(4.5, 14.0, 16.0))), first);
}

TEST_F(RemovalFromRecord, OfWhatIsNotThere) {
    const Record record = open();
    EXPECT_EQ(code_of(remove_yarn(record, "nowhere")), "no-such-yarn");
    EXPECT_EQ(code_of(remove_measurement(record, 7)), "no-such-measurement");
    EXPECT_EQ(code_of(undo_removal(record)), "nothing-removed");
}

}  // namespace
}  // namespace ridgetally

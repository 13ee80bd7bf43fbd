#include "yarns/check.h"

#include "unit/yarns/example_yarns.h"
#include "yarns/removal.h"
#include "yarns/sql/database.h"

namespace ridgetally {
namespace {

class Check : public WithRecord {
  protected:
    /// A record with two yarns and two measurements, one of each removed.
    [[nodiscard]] Record filled() const {
        Record record = open();
        must(add_yarn(record, moss()));
        must(add_yarn(record, named("Oddmere Four")));
        Measurement swatch = swatch_on(5.0, 13.0, 15.0);
        swatch.photo_sha256 = "0a1b";
        swatch.report = "{}";
        must(save_measurement(record, moss().name, swatch));
        must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
        must(remove_measurement(record, 2));
        must(remove_yarn(record, "Oddmere Four"));
        return record;
    }
};

TEST_F(Check, CountsWhatIsThere) {
    const auto check = must(check_record(filled()));
    EXPECT_TRUE(check.faults.empty()) << testing::PrintToString(check.faults);
    EXPECT_EQ(check.yarns, 1);
    EXPECT_EQ(check.measurements, 1);
    EXPECT_EQ(check.removed, 2);
    EXPECT_TRUE(check.notes.empty());
}

TEST_F(Check, FindsWhatBelongsToNothing) {
    const Record record = filled();
    record.database().script("PRAGMA foreign_keys = OFF; UPDATE measurement SET yarn = 77 WHERE number = 1;");
    EXPECT_EQ(must(check_record(record)).faults.size(), 1U);
}

TEST_F(Check, FindsValuesThatTheProgramWouldNotTake) {
    const Record record = filled();
    record.database().run("UPDATE yarn SET added = ?1 WHERE name = ?2", "yesterday", moss().name);
    record.database().run("UPDATE measurement SET photo_file = CAST(?1 AS TEXT) WHERE number = 1", "\xFF");
    EXPECT_EQ(must(check_record(record)).faults.size(), 2U);
}

TEST_F(Check, TellsOfPhotosSavedTwice) {
    const Record record = filled();
    must(remove_measurement(record, 1));
    Measurement again = swatch_on(5.0, 13.0, 15.0);
    again.photo_sha256 = "0a1b";
    must(save_measurement(record, moss().name, again));
    must(undo_removal(record));
    const auto check = must(check_record(record));
    EXPECT_TRUE(check.faults.empty());
    ASSERT_EQ(check.notes.size(), 1U);
    EXPECT_NE(check.notes[0].find("1, 3"), std::string::npos) << check.notes[0];
}

TEST_F(Check, ForeignKeysHold) {
    const Record record = filled();
    EXPECT_THROW(record.database().run("UPDATE measurement SET yarn = ?1", 77), sql::Fault);
}

}  // namespace
}  // namespace ridgetally

#include <csignal>
#include <functional>

#include "unit/yarns/example_yarns.h"
#include "unit/yarns/faulty_disk.h"
#include "unit/yarns/processes.h"
#include "yarns/check.h"
#include "yarns/exchange.h"
#include "yarns/removal.h"

// Every change is cut off at every single change of a file that SQLite makes for it.
namespace ridgetally {
namespace {

namespace fs = std::filesystem;

/// A change to a record, and whether it was made.
struct Change {
    const char* name;
    std::function<bool(const Record&)> make;
};

void PrintTo(const Change& change, std::ostream* out) { *out << change.name; }

/// A measurement whose report fills several pages.
Measurement bulky_swatch() {
    Measurement swatch = swatch_on(5.0, 13.0, 15.0);
    swatch.report = "{\"filling\":\"" + std::string(20000, 'x') + "\"}";
    return swatch;
}

bool import_three(const Record& record) {
    std::vector<IncomingYarn> yarns;
    for (const char* name : {"a", "b", "c"}) {
        yarns.push_back(
            {name, [name](const auto&) { return Outcome<Yarn>(named(name)); }, {{0, bulky_swatch()}}});
    }
    return import_yarns(record, yarns, Existing::refused).ok();
}

class CutOff : public WithRecord, public testing::WithParamInterface<Change> {
  protected:
    void SetUp() override {
        WithRecord::SetUp();
        {
            const Record record = open();
            must(add_yarn(record, moss()));
            must(add_yarn(record, named("Oddmere Four")));
            must(save_measurement(record, moss().name, bulky_swatch()));
            must(remove_yarn(record, "Oddmere Four"));
        }
        bytes_before_ = bytes_of(file());
        before_ = state();
        ASSERT_TRUE(GetParam().make(open()));
        after_ = state();
        ASSERT_NE(before_, after_);
    }
    void put_back() const {
        for (const auto& name : files()) fs::remove(folder() / name);
        std::ofstream(file(), std::ios::binary) << bytes_before_;
    }
    /// Everything in the record, and that it is sound.
    [[nodiscard]] std::string state() const {
        const Record record = open();
        const auto check = must(check_record(record));
        EXPECT_TRUE(check.faults.empty()) << testing::PrintToString(check.faults);
        return must(export_json(record)) + std::to_string(check.removed);
    }

    std::string bytes_before_;
    std::string before_;
    std::string after_;
};

TEST_P(CutOff, ByAKillAtAnyPointItIsMadeInFullOrNotAtAll) {
    int at = 1;
    for (;; ++at) {
        put_back();
        Child child([&] {
            put_faulty_disk_under_sqlite(DiskFault::killed, at);
            return GetParam().make(open()) ? 0 : 1;
        });
        const int status = child.status();
        const std::string now = state();
        ASSERT_TRUE(now == before_ || now == after_) << "half of it was made at " << at;
        if (status == 0) {
            EXPECT_EQ(now, after_);
            break;
        }
        ASSERT_EQ(status, -SIGKILL);
    }
    EXPECT_GT(at, 5) << "the change was never cut off";
}

TEST_P(CutOff, ByAFullDiskItIsRefusedAndCanBeMadeAgain) {
    constexpr int made_at_once = 3;
    int at = 1;
    for (;; ++at) {
        put_back();
        Child child([&] {
            put_faulty_disk_under_sqlite(DiskFault::full, at);
            const auto record = Record::open(file(), Access::change);
            if (!record) return 10;
            if (GetParam().make(*record)) return made_at_once;
            mend_disk();
            if (state() != before_) return 11;
            return GetParam().make(*record) ? 0 : 12;
        });
        const int status = child.status();
        EXPECT_EQ(state(), after_) << at;
        if (status == made_at_once) break;
        ASSERT_EQ(status, 0) << at;
    }
    EXPECT_GT(at, 3) << "the disk was never full";
}

INSTANTIATE_TEST_SUITE_P(
    Record, CutOff,
    testing::Values(
        Change{"add", [](const Record& r) { return add_yarn(r, named("new")).ok(); }},
        Change{"use",
               [](const Record& r) {
                   return use_yarn(r, moss().name, {1.0, {}}).ok();
               }},
        Change{"save", [](const Record& r) { return save_measurement(r, moss().name, bulky_swatch()).ok(); }},
        Change{"remove", [](const Record& r) { return remove_yarn(r, moss().name).ok(); }},
        Change{"undo", [](const Record& r) { return undo_removal(r).ok(); }}, Change{"import", import_three}),
    [](const auto& one) { return std::string(one.param.name); });

using NewRecord = WithRecord;

TEST_F(NewRecord, KilledWhileItIsMadeItIsMadeByTheNext) {
    for (int at = 1;; ++at) {
        for (const auto& name : files()) fs::remove(folder() / name);
        Child child([&] {
            put_faulty_disk_under_sqlite(DiskFault::killed, at);
            return add_yarn(open(), moss()).ok() ? 0 : 1;
        });
        const int status = child.status();
        const Record record = open();
        EXPECT_TRUE(must(check_record(record)).faults.empty());
        EXPECT_LE(must(list_yarns(record)).size(), 1U);
        if (status == 0) break;
        ASSERT_EQ(status, -SIGKILL);
        must(add_yarn(record, named("next")));
    }
}

}  // namespace
}  // namespace ridgetally

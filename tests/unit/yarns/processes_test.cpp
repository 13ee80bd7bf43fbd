#include "unit/yarns/processes.h"

#include <fcntl.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <thread>

#include "core/random.h"
#include "unit/yarns/example_yarns.h"
#include "yarns/check.h"
#include "yarns/exchange.h"
#include "yarns/sql/database.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

class Processes : public WithRecord {
  protected:
    void expect_sound() const {
        const auto check = must(check_record(open()));
        EXPECT_TRUE(check.faults.empty()) << testing::PrintToString(check.faults);
    }
};

/// What a child tells as it goes: one byte for every change that was made.
class Tally {
  public:
    Tally() {
        if (::pipe(ends_.data()) != 0) throw std::runtime_error("no pipe");
    }
    Tally(const Tally&) = delete;
    Tally& operator=(const Tally&) = delete;
    ~Tally() {
        ::close(ends_[0]);
        ::close(ends_[1]);
    }
    void one_more() const { (void)!::write(ends_[1], "+", 1); }
    /// Waits until so many are told.
    void wait_for(int count) {
        while (count_ < count) count_ += read_some();
    }
    /// All that were told.
    [[nodiscard]] int count() {
        ::fcntl(ends_[0], F_SETFL, O_NONBLOCK);
        count_ += read_some();
        ::fcntl(ends_[0], F_SETFL, 0);
        return count_;
    }

  private:
    [[nodiscard]] int read_some() const {
        std::array<char, 4096> bytes{};
        return static_cast<int>(std::max<ssize_t>(0, ::read(ends_[0], bytes.data(), bytes.size())));
    }
    std::array<int, 2> ends_{};
    int count_ = 0;
};

/// Adds yarns with three measurements each, in one import a yarn, until it is killed.
int add_for_ever(const std::string& file, int first, const Tally& made) {
    const Record record = Record::open(file, Access::change).value();
    for (int i = first;; ++i) {
        const std::string name = "yarn " + std::to_string(i);
        Measurement swatch = swatch_on(5.0, 13.0, 15.0);
        swatch.report = "{\"filling\":\"" + std::string(5000, 'x') + "\"}";
        const IncomingYarn yarn{name,
                                [name](const auto&) { return Outcome<Yarn>(named(name)); },
                                {{0, swatch}, {0, swatch}, {0, swatch}}};
        if (!import_yarns(record, {yarn}, Existing::refused)) return 1;
        made.one_more();
    }
}

TEST_F(Processes, KilledAgainAndAgainNothingThatWasMadeIsLost) {
    Random random(9);
    int there = 0;
    for (int round = 0; round < 40; ++round) {
        Tally tally;
        Child child([&] { return add_for_ever(file(), 1000 * round, tally); });
        tally.wait_for(random.whole(0, 4));
        std::this_thread::sleep_for(std::chrono::microseconds(random.whole(0, 20000)));
        child.kill();
        ASSERT_EQ(child.status(), -SIGKILL);
        const auto lines = must(list_yarns(open()));
        const int made = static_cast<int>(lines.size()) - there;
        // One more may have been made without there having been time to tell.
        EXPECT_GE(made, tally.count());
        EXPECT_LE(made, tally.count() + 1);
        for (const auto& line : lines) EXPECT_EQ(line.measurements, 3) << line.yarn.name;
        there += made;
    }
    EXPECT_GT(there, 40) << "hardly anything was written";
    expect_sound();
}

TEST_F(Processes, TwoThatWriteAtOnceLoseNothing) {
    constexpr int each = 60;
    Yarn yarn = moss();
    yarn.balls = 2.0 * each;
    must(add_yarn(open(), yarn));
    const auto work = [&](const char* who) {
        return [this, who] {
            for (int i = 0; i < each; ++i) {
                const Record record = open();
                if (!use_yarn(record, moss().name, {1.0, AmountUnit::balls})) return 1;
                if (!add_yarn(record, named(who + std::to_string(i)))) return 2;
            }
            return 0;
        };
    };
    Child one(work("one "));
    Child two(work("two "));
    EXPECT_EQ(one.status(), 0);
    EXPECT_EQ(two.status(), 0);
    EXPECT_EQ(must(find_yarn(open(), moss().name)).yarn.balls, 0.0);
    EXPECT_EQ(must(list_yarns(open())).size(), 2U * each + 1U);
    expect_sound();
}

TEST_F(Processes, TwoThatMakeTheRecordAtOnceMakeOne) {
    for (int round = 0; round < 10; ++round) {
        for (const auto& name : files()) fs::remove(folder() / name);
        const auto work = [&](const char* name) {
            return [this, name] { return add_yarn(open(), named(name)).ok() ? 0 : 1; };
        };
        Child one(work("one"));
        Child two(work("two"));
        EXPECT_EQ(one.status(), 0);
        EXPECT_EQ(two.status(), 0);
        EXPECT_EQ(must(list_yarns(open())).size(), 2U);
    }
}

TEST_F(Processes, OneThatHoldsTheRecordTooLongIsToldOf) {
    const Record record = open();
    const sql::Transaction held(record.database(), sql::Purpose::writing);
    Child child([&] {
        const auto other = Record::open(file(), Access::change, {20});
        if (!other) return 1;
        if (!list_yarns(*other)) return 2;
        return code_of(add_yarn(*other, moss())) == "record-busy" ? 0 : 3;
    });
    EXPECT_EQ(child.status(), 0);
}

/// Adds yarns until one is refused; 0 where that was told as a fault of input and output and everything
/// before it is there.
int fill_up(const std::string& file) {
    const auto record = Record::open(file, Access::change);
    if (!record) return 1;
    for (int i = 0; i < 2000; ++i) {
        Yarn yarn = named("yarn " + std::to_string(i));
        yarn.notes = std::string(3000, 'x');
        const auto added = add_yarn(*record, yarn);
        if (added) continue;
        if (added.refusal().code != "io") return 2;
        const auto lines = list_yarns(*record);
        if (!lines || static_cast<int>(lines->size()) != i) return 3;
        const auto check = check_record(*record);
        return check && check->faults.empty() && i > 10 ? 0 : 4;
    }
    return 5;
}

TEST_F(Processes, AFileThatMayGrowNoFurtherKeepsWhatItHas) {
    Child child([&] {
        // Writing past the limit fails then, instead of ending the process (setrlimit(2)).
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{200000, 200000};
        if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 90;
        return fill_up(file());
    });
    EXPECT_EQ(child.status(), 0);
    expect_sound();
}

TEST_F(Processes, AFullDiskKeepsWhatItHas) {
    constexpr int not_permitted = 90;
    Child child([&] {
        // A small disk of its own for this process alone, as root or as the root of a user namespace.
        const bool own = ::unshare(CLONE_NEWNS) == 0 || ::unshare(CLONE_NEWUSER | CLONE_NEWNS) == 0;
        if (!own || ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0 ||
            ::mount("tmpfs", folder().c_str(), "tmpfs", 0, "size=256k") != 0)
            return not_permitted;
        return fill_up(file());
    });
    const int status = child.status();
    if (status == not_permitted) GTEST_SKIP() << "this process may not mount a file system";
    EXPECT_EQ(status, 0);
}

TEST_F(Processes, AFolderThatMayNotBeWrittenCanBeLookedAt) {
    must(add_yarn(open(), moss()));
    fs::permissions(file(), fs::perms::owner_read | fs::perms::others_read);
    fs::permissions(folder(), static_cast<fs::perms>(0555));
    const std::string before = bytes_of(file());
    Child child([&] {
        // Rights do not bind root: it becomes nobody.
        constexpr uid_t nobody = 65534;
        if (::geteuid() == 0 && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) return 90;
        if (::access(folder().c_str(), W_OK) == 0) return 91;
        const auto record = Record::open(file(), Access::change);
        if (!record) return 1;
        const auto lines = list_yarns(*record);
        if (!lines || lines->size() != 1) return 2;
        if (code_of(add_yarn(*record, named("new"))) != "io") return 3;
        const auto elsewhere = Record::open((folder() / "new.db").string(), Access::change);
        if (code_of(elsewhere) != "io") return 4;
        return code_of(Record::open((folder() / "new" / "x.db").string(), Access::change)) == "io" ? 0 : 5;
    });
    EXPECT_EQ(child.status(), 0);
    fs::permissions(folder(), static_cast<fs::perms>(0755));
    EXPECT_TRUE(bytes_of(file()) == before);
}

}  // namespace
}  // namespace ridgetally

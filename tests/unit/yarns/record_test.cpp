#include <sys/stat.h>

#include <cstdlib>

#include "unit/yarns/example_yarns.h"
#include "yarns/schema.h"
#include "yarns/sql/database.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

using RecordFile = WithRecord;

TEST_F(RecordFile, LookingMakesNoFile) {
    EXPECT_TRUE(must(list_yarns(open(Access::look))).empty());
    EXPECT_TRUE(files().empty());
}

TEST_F(RecordFile, ChangingMakesTheFileAndAFolderForItsOwnerAlone) {
    const auto file = folder() / "new" / "folder" / "record.db";
    must(add_yarn(Record::open(file.string(), Access::change).value(), moss()));
    struct stat facts {};
    ASSERT_EQ(::stat(file.parent_path().c_str(), &facts), 0);
    EXPECT_EQ(facts.st_mode & 0777U, 0700U);
}

TEST_F(RecordFile, IsOneFileOnceItIsClosed) {
    { must(add_yarn(open(), moss())); }
    EXPECT_EQ(files(), std::vector<std::string>{"record.db"});
}

TEST_F(RecordFile, NamesThatSqliteGivesAMeaningAreFiles) {
    const auto before = fs::current_path();
    fs::current_path(folder());
    for (const char* name : {":memory:", "file:record.db?mode=memory", "-x"}) {
        must(add_yarn(Record::open(name, Access::change).value(), moss()));
        EXPECT_TRUE(fs::exists(folder() / name)) << name;
    }
    fs::current_path(before);
}

TEST_F(RecordFile, AnEmptyFileBecomesARecord) {
    std::ofstream(file()).flush();
    must(add_yarn(open(), moss()));
    EXPECT_EQ(must(list_yarns(open())).size(), 1U);
}

TEST_F(RecordFile, ANewerOneIsRefusedAndLeft) {
    must(add_yarn(open(), moss()));
    sql::Database(file(), sql::Missing::fails, 0).script("PRAGMA user_version = 1000000");
    const std::string before = bytes_of(file());
    for (const Access access : {Access::look, Access::change}) {
        const auto record = Record::open(file(), access);
        EXPECT_EQ(code_of(record), "record-newer");
        EXPECT_NE(record.refusal().message.find("1000000"), std::string::npos);
    }
    EXPECT_TRUE(bytes_of(file()) == before);
    EXPECT_EQ(files(), std::vector<std::string>{"record.db"});
}

TEST_F(RecordFile, AnotherProgramsDatabaseIsLeft) {
    sql::Database(file(), sql::Missing::is_made, 0)
        .script("CREATE TABLE yarn (id INTEGER); PRAGMA user_version = 1;");
    const std::string before = bytes_of(file());
    EXPECT_EQ(code_of(Record::open(file(), Access::change)), "not-a-record");
    EXPECT_TRUE(bytes_of(file()) == before);
}

TEST_F(RecordFile, WhatIsNoFileCannotBeOpened) {
    EXPECT_EQ(code_of(Record::open(folder().string(), Access::look)), "io");
    EXPECT_EQ(code_of(Record::open("/dev/null", Access::change)), "io");
    // A file stands where the folder should be, and /proc takes no files, not even from root.
    std::ofstream(file()) << "no folder";
    EXPECT_EQ(code_of(Record::open(file() + "/record.db", Access::change)), "io");
    EXPECT_EQ(code_of(Record::open("/proc/ridgetally/record.db", Access::change)), "io");
    EXPECT_EQ(code_of(Record::open("/proc/record.db", Access::change)), "io");
}

/// The environment as it was, afterwards.
class Variable {
  public:
    Variable(const char* name, const char* value) : name_(name) {
        const char* before = std::getenv(name);
        if (before != nullptr) before_ = before;
        value != nullptr ? ::setenv(name, value, 1) : ::unsetenv(name);
    }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;
    ~Variable() { before_ ? ::setenv(name_, before_->c_str(), 1) : ::unsetenv(name_); }

  private:
    const char* name_;
    std::optional<std::string> before_;
};

// XDG Base Directory Specification, version 0.8: $XDG_DATA_HOME, else $HOME/.local/share; "All paths set in
// these environment variables must be absolute. If an implementation encounters a relative path in any of
// these variables it should consider the path invalid and ignore it." (from memory)
TEST(UsualRecordFile, FollowsTheStandard) {
    const Variable home("HOME", "/home/maker");
    const Variable told("RIDGETALLY_RECORD", nullptr);
    {
        const Variable data("XDG_DATA_HOME", "/data");
        EXPECT_EQ(must(usual_record_file()), "/data/ridgetally/record.db");
        const Variable own("RIDGETALLY_RECORD", "wool.db");
        EXPECT_EQ(must(usual_record_file()), "wool.db");
    }
    for (const char* useless : {static_cast<const char*>(nullptr), "", "data"}) {
        const Variable data("XDG_DATA_HOME", useless);
        EXPECT_EQ(must(usual_record_file()), "/home/maker/.local/share/ridgetally/record.db");
        const Variable no_home("HOME", nullptr);
        EXPECT_EQ(code_of(usual_record_file()), "no-record-folder");
    }
}

}  // namespace
}  // namespace ridgetally

#include "core/random.h"
#include "unit/yarns/example_yarns.h"
#include "yarns/check.h"
#include "yarns/exchange.h"
#include "yarns/removal.h"

namespace ridgetally {
namespace {

class Damage : public WithRecord {
  protected:
    void fill() const {
        const Record record = open();
        for (int i = 0; i < 40; ++i) {
            const std::string name = "yarn " + std::to_string(i);
            Yarn yarn = moss();
            yarn.name = name;
            must(add_yarn(record, yarn));
            Measurement swatch = swatch_on(5.0, 13.0, 15.0);
            swatch.report = "{\"filling\":\"" + std::string(3000, 'x') + "\"}";
            must(save_measurement(record, name, swatch));
        }
    }
    void write(const std::string& bytes) const { std::ofstream(file(), std::ios::binary) << bytes; }

    /// Everything a maker may do with a record. Whether any of it was refused because of damage.
    [[nodiscard]] bool refused_anything() const {
        bool refused = false;
        const auto note = [&](const auto& outcome) {
            const std::string code = code_of(outcome);
            EXPECT_TRUE(code.empty() || code == "record-damaged" || code == "not-a-record" ||
                        code == "record-newer" || code == "io" || code == "no-such-yarn" ||
                        code == "name-taken" || code == "bad-value")
                << code;
            refused = refused || code == "record-damaged" || code == "not-a-record" || code == "io";
        };
        const auto record = Record::open(file(), Access::change);
        note(record);
        if (!record) return refused;
        note(list_yarns(*record));
        note(measurements_of(*record, "yarn 7", Reports::read));
        note(export_json(*record));
        note(check_record(*record));
        return refused;
    }
};

TEST_F(Damage, WhatIsNoRecordAtAllIsLeftByteForByte) {
    for (const std::string& bytes : {std::string("Dear maker, this is no record.\n"), std::string(5000, '\0'),
                                     std::string("SQLite format 3"), std::string(100, '\xFF')}) {
        write(bytes);
        for (const Access access : {Access::look, Access::change})
            EXPECT_EQ(code_of(Record::open(file(), access)), "record-damaged");
        EXPECT_TRUE(bytes_of(file()) == bytes);
        EXPECT_EQ(files().size(), 1U);
    }
}

TEST_F(Damage, ACutFileIsToldAndLeft) {
    fill();
    const std::string whole = bytes_of(file());
    for (std::size_t pages = 1; pages * 4096 < whole.size(); pages += 1 + pages / 3) {
        const std::string cut = whole.substr(0, pages * 4096 - 100);
        write(cut);
        EXPECT_TRUE(refused_anything()) << pages;
        EXPECT_TRUE(bytes_of(file()) == cut) << pages;
    }
}

TEST_F(Damage, ScribbledPagesNeverCrashAndAreFoundByTheCheck) {
    fill();
    const std::string whole = bytes_of(file());
    Random random(5);
    int found = 0;
    constexpr int trials = 60;
    for (int trial = 0; trial < trials; ++trial) {
        std::string bytes = whole;
        // The first 16 bytes of some page but the first: the head of a B-tree page, or the link of an
        // overflow page.
        const int page = random.whole(1, static_cast<int>(whole.size() / 4096) - 1);
        for (std::size_t i = 0; i < 16; ++i)
            bytes.at(static_cast<std::size_t>(page) * 4096 + i) = static_cast<char>(random.whole(0, 255));
        write(bytes);
        bool told = refused_anything();
        const auto record = Record::open(file(), Access::look);
        if (record) {
            const auto check = check_record(*record);
            told = told || !check || !check->faults.empty();
        }
        found += told ? 1 : 0;
        EXPECT_TRUE(bytes_of(file()) == bytes) << "looking changed the file";
    }
    EXPECT_EQ(found, trials);
}

TEST_F(Damage, AChangeThatFailsHalfwayLeavesTheFile) {
    fill();
    std::string bytes = bytes_of(file());
    // Every page but the first of the file, which holds the schema.
    for (std::size_t page = 1; page * 4096 < bytes.size(); ++page)
        for (std::size_t i = 0; i < 8; ++i) bytes[page * 4096 + i] = '\xEE';
    write(bytes);
    const auto record = Record::open(file(), Access::change);
    if (record) {
        EXPECT_EQ(code_of(add_yarn(*record, named("new"))), "record-damaged");
        EXPECT_EQ(code_of(remove_yarn(*record, "yarn 7")), "record-damaged");
    }
    EXPECT_TRUE(bytes_of(file()) == bytes);
}

}  // namespace
}  // namespace ridgetally

#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "yarns/gauges.h"
#include "yarns/record.h"
#include "yarns/stock.h"

/// An invented stock: there is no such yarn or maker.
namespace ridgetally {

inline Yarn moss() {
    Yarn yarn;
    yarn.name = "Fennelwick DK, Moss";
    yarn.weight_category = 3;
    yarn.fibre = "60 % wool, 40 % alpaca";
    yarn.colour = "Moss";
    yarn.dye_lot = "2211";
    yarn.ball_g = 50.0;
    yarn.ball_m = 120.0;
    yarn.balls = 3.5;
    yarn.band = {Craft::crochet, 14.0, 16.0, 100.0, 4.5};
    yarn.notes = "Bought for the pudding hats.\nSplits a little.";
    yarn.added = "2026-10-03";
    return yarn;
}

/// Names that trip programs up: scripts, quotes, line ends, emoji, text that looks like SQL or JSON.
inline std::vector<std::string> awkward_names() {
    return {"Мох",
            "苔の毛糸",
            "طحلب ١٢",
            "Mosa\u0300",
            "Mos\u00E0",
            "🧶🐑👩‍👩‍👧",
            "two\nlines\tand a tab",
            "5\" \"thick\" rope",
            "O'Moss'; DROP TABLE yarn; --",
            "%_*?[x]",
            "{\"a\": [1]}",
            "a,b;c\r\nd",
            "-odd",
            std::string(900, 'x')};
}

inline Yarn named(const std::string& name) {
    Yarn yarn;
    yarn.name = name;
    yarn.added = "2026-11-01";
    return yarn;
}

/// A swatch of so many stitches and rows per 10 cm, each known to 2 % (one standard uncertainty), on a hook.
inline Measurement swatch_on(double hook_mm, double stitches, double rows) {
    Measurement m;
    m.taken = "2026-11-02";
    m.hook_mm = hook_mm;
    m.stitch = StitchFamily::sc;
    m.worked = Worked::flat;
    m.state = FabricState::relaxed;
    m.stitches_per_10cm = stitches;
    m.stitches_std = 0.02 * stitches;
    m.rows_per_10cm = rows;
    m.rows_std = 0.02 * rows;
    return m;
}

inline std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    return bytes.str();
}

/// A test with an empty folder, and a record in it.
class WithRecord : public testing::Test {
  protected:
    void SetUp() override {
        std::string test = testing::UnitTest::GetInstance()->current_test_info()->name();
        // A test with a parameter is called "Name/parameter": that would be a folder in one that stays.
        std::replace(test.begin(), test.end(), '/', '-');
        folder_ = std::filesystem::path(testing::TempDir()) /
                  ("ridgetally-yarns-" + std::to_string(::getpid()) + "-" + test);
        std::filesystem::create_directories(folder_);
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
    [[nodiscard]] std::string file() const { return (folder_ / "record.db").string(); }
    [[nodiscard]] Record open(Access access = Access::change) const {
        return Record::open(file(), access).value();
    }
    /// Names of the files in the folder.
    [[nodiscard]] std::vector<std::string> files() const {
        std::vector<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(folder_))
            names.push_back(entry.path().filename().string());
        return names;
    }

  private:
    std::filesystem::path folder_;
};

/// The value, or a failed test that says why there is none.
template <typename T>
T must(const Outcome<T>& outcome) {
    if (!outcome) {
        ADD_FAILURE() << outcome.refusal().code << ": " << outcome.refusal().message;
        throw std::runtime_error(outcome.refusal().message);
    }
    return *outcome;
}

/// The code of the refusal; empty where there is none.
template <typename T>
std::string code_of(const Outcome<T>& outcome) {
    return outcome ? "" : outcome.refusal().code;
}

}  // namespace ridgetally

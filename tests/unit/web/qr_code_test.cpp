#include "web/qr_code.h"

#include <gtest/gtest.h>

#include <sstream>
#include <vector>

namespace ridgetally::web {
namespace {

/// Modules of the printed code, dark ones true, with the quiet zone.
std::vector<std::vector<bool>> modules_of(const std::string& printed) {
    std::vector<std::vector<bool>> rows;
    std::istringstream lines(printed);
    for (std::string line; std::getline(lines, line);) {
        std::vector<bool> upper;
        std::vector<bool> lower;
        for (std::size_t i = line.find('m') + 1; i < line.size() && line[i] != '\x1b';) {
            const bool blank = line[i] == ' ';
            const std::string block = blank ? " " : line.substr(i, 3);
            upper.push_back(block == "\u2580" || block == "\u2588");
            lower.push_back(block == "\u2584" || block == "\u2588");
            i += blank ? 1 : 3;
        }
        rows.push_back(upper);
        rows.push_back(lower);
    }
    return rows;
}

/// ISO/IEC 18004, 6.3.3: a finder pattern is 7 x 7 dark, 5 x 5 light, 3 x 3 dark.
bool is_finder(const std::vector<std::vector<bool>>& rows, std::size_t x0, std::size_t y0) {
    for (std::size_t y = 0; y < 7; ++y) {
        for (std::size_t x = 0; x < 7; ++x) {
            const std::size_t ring = std::min(std::min(x, y), std::min(6 - x, 6 - y));
            if (rows[y0 + y][x0 + x] != (ring != 1)) return false;
        }
    }
    return true;
}

TEST(QrCode, HasFinderPatternsAndAQuietZoneOfFour) {
    const auto rows = modules_of(qr_code("http://192.168.1.7:8737/?key=0123456789abcdefghijklmnopq"));
    const std::size_t side = rows.front().size();
    ASSERT_GE(rows.size(), side);
    EXPECT_EQ((side - 8 - 17) % 4, 0U) << "a code has 17 + 4 V modules a side";
    EXPECT_TRUE(is_finder(rows, 4, 4));
    EXPECT_TRUE(is_finder(rows, side - 11, 4));
    EXPECT_TRUE(is_finder(rows, 4, side - 11));
    for (std::size_t i = 0; i < side; ++i) {
        for (std::size_t q = 0; q < 4; ++q) {
            EXPECT_FALSE(rows[q][i]);
            EXPECT_FALSE(rows[i][q]);
            EXPECT_FALSE(rows[i][side - 1 - q]);
        }
    }
}

TEST(QrCode, IsEmptyForWhatFitsIntoNone) { EXPECT_EQ(qr_code(std::string(10000, 'x')), ""); }

}  // namespace
}  // namespace ridgetally::web

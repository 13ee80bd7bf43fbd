#include "yarns/csv.h"

#include "unit/yarns/example_yarns.h"

// RFC 4180, Common Format and MIME Type for CSV Files, section 2; the numbers are those of its rules.
namespace ridgetally {
namespace {

using Fields = std::vector<std::vector<std::string>>;

Fields fields_of(std::string_view text) {
    Fields all;
    for (const auto& row : must(parse_csv(text))) all.push_back(row.fields);
    return all;
}

TEST(Csv, TheExamplesOfTheStandard) {
    const Fields two = {{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    EXPECT_EQ(fields_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), two);          // 1
    EXPECT_EQ(fields_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"), two);              // 2
    EXPECT_EQ(fields_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), two);  // 5
    EXPECT_EQ(fields_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),    // 6
              (Fields{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
    EXPECT_EQ(fields_of("\"aaa\",\"b\"\"bb\",\"ccc\""), (Fields{{"aaa", "b\"bb", "ccc"}}));  // 7
    EXPECT_EQ(fields_of(" a , b "), (Fields{{" a ", " b "}}));  // 4: blanks are kept
}

TEST(Csv, LineFeedsAloneAndAByteOrderMarkAreForgiven) {
    EXPECT_EQ(fields_of("\xEF\xBB\xBFname,balls\nМох,2\n\n"), (Fields{{"name", "balls"}, {"Мох", "2"}}));
    EXPECT_EQ(fields_of(""), Fields{});
    EXPECT_EQ(fields_of("a,b\n,\n"), (Fields{{"a", "b"}, {"", ""}}));
}

TEST(Csv, FaultsAreToldWithTheirLine) {
    const auto message = [](std::string_view text) {
        const auto rows = parse_csv(text);
        return rows ? "" : rows.refusal().message;
    };
    EXPECT_EQ(message("a,b\nc\n"), "line 2: 1 fields where the first line has 2");
    EXPECT_EQ(message("a\n\"b\nc"), "line 2: a quote that is not closed");
    EXPECT_EQ(message("a\n\"b\nc\"d\n"), "line 3: text after the closing quote");
    EXPECT_EQ(message("a\nb\"c\n"), "line 2: a quote inside a field without quotes");
    EXPECT_EQ(message("a\rb\r"), "line 1: a carriage return without a line feed");
}

TEST(Csv, WhatIsWrittenIsReadAgain) {
    const Fields awkward = {awkward_names(), std::vector<std::string>(awkward_names().size(), ""),
                            std::vector<std::string>(awkward_names().size(), "\",\r\n\"\"")};
    std::string text;
    for (const auto& row : awkward) text += csv_line(row);
    EXPECT_EQ(fields_of(text), awkward);
    EXPECT_EQ(fields_of(csv_line({""})), (Fields{{""}}));
    EXPECT_EQ(csv_line({"a", "b c", "d,e", "f\"g"}), "a,b c,\"d,e\",\"f\"\"g\"\r\n");
}

}  // namespace
}  // namespace ridgetally

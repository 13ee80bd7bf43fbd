#include <gtest/gtest.h>
#include <sysexits.h>

#include "cli/run_program.h"

namespace ridgetally::blackbox {
namespace {

const std::vector<std::string> topics = {"hooks", "yarn-weights", "heads", "stitches", "references"};

TEST(Facts, EveryTopicPrintsTablesAndSources) {
    for (const auto& topic : topics) {
        const Finished facts = run({"facts", topic});
        EXPECT_EQ(facts.status, 0) << facts.err;
        EXPECT_NE(facts.out.find("[1]"), std::string::npos) << topic;
        EXPECT_NE(facts.out.find("Sources:"), std::string::npos) << topic;
    }
}

TEST(Facts, EveryRowOfTheDocumentHasASource) {
    for (const auto& topic : topics) {
        const auto document = run({"facts", topic, "--json"}).json();
        EXPECT_EQ(document["schema"], "ridgetally.facts/1");
        EXPECT_EQ(document["topic"], topic);
        int rows = 0;
        for (const auto& [key, table] : document.items()) {
            if (!table.is_array()) continue;
            for (const auto& row : table) {
                EXPECT_FALSE(row.value("source", "").empty()) << topic << " " << key << " " << row;
                ++rows;
            }
        }
        EXPECT_GE(rows, 10) << topic;
    }
}

TEST(Facts, UnknownTopicsAreWrongUse) {
    for (const auto& arguments :
         {std::vector<std::string>{"facts"}, {"facts", "hats"}, {"facts", "hooks", "heads"}}) {
        const Finished wrong = run(arguments);
        EXPECT_EQ(wrong.status, EX_USAGE);
        EXPECT_EQ(lines_of(wrong.err).size(), 1U) << wrong.err;
    }
}

}  // namespace
}  // namespace ridgetally::blackbox

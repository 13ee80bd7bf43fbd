#include <sysexits.h>

#include <fstream>

#include "cli/run_yarn.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;
using YarnFiles = WithYarns;

TEST_F(YarnFiles, ExportAndImportAreExact) {
    write("yarns.csv",
          "\xEF\xBB\xBFname,balls,ball_g,notes\r\n\"Fennelwick DK, Moss\",2.1,50,\"a "
          "\"\"b\"\"\r\nc\"\r\nМох,,,\r\n");
    write("gauges.csv",
          "yarn,taken,hook_mm,stitches_per_10cm,stitches_std\n\"Fennelwick DK, "
          "Moss\",2026-10-01,4.5,14.1,0.2\n");
    done({"import", path("yarns.csv")});
    done({"import", path("gauges.csv")});
    done({"export", path("all.json")});
    done({"import", path("all.json"), "--record", path("copy.db")});
    done({"export", path("again.json"), "--record", path("copy.db")});
    EXPECT_EQ(bytes_of(path("again.json")), bytes_of(path("all.json")));
    for (const char* sheet : {"--yarns-csv", "--gauges-csv"})
        EXPECT_EQ(done({"export", sheet, "-"}), done({"export", sheet, "-", "--record", path("copy.db")}));
    EXPECT_EQ(json::parse(bytes_of(path("all.json")))["yarns"][0]["notes"], "a \"b\"\r\nc");
}

TEST_F(YarnFiles, AnImportIsAllOrNothing) {
    done({"add", moss, "--balls", "2"});
    write("yarns.csv", "name,balls\nAaa,1\n\"Fennelwick DK, Moss\",5\n");
    EXPECT_EQ(yarn({"import", path("yarns.csv")}).status, 2);
    EXPECT_EQ(yarn({"list", "--json"}).json()["yarns"].size(), 1U);
    done({"import", "--existing", "replaced", path("yarns.csv")});
    EXPECT_EQ(yarn({"list", "--json"}).json()["yarns"][1]["balls"], 5.0);
    write("bad.csv", "name,balls\nBbb,1\nCcc,many\n");
    const Finished bad = yarn({"import", path("bad.csv")});
    EXPECT_EQ(bad.status, EX_DATAERR);
    EXPECT_NE(bad.err.find("line 3"), std::string::npos) << bad.err;
    EXPECT_EQ(yarn({"list", "--json"}).json()["yarns"].size(), 2U);
}

TEST_F(YarnFiles, LabelsComeAsSheets) {
    done({"add", moss});
    std::string csv = "yarn,stitches_per_10cm,stitches_std\n";
    for (int i = 0; i < 11; ++i) csv += "\"Fennelwick DK, Moss\",14.1,0.2\n";
    write("gauges.csv", csv);
    done({"import", path("gauges.csv")});
    const std::string told = done({"labels", path("labels.svg"), moss});
    EXPECT_EQ(lines_of(told).size(), 2U) << told;
    EXPECT_NE(bytes_of(path("labels.svg")).find("No. 10<"), std::string::npos);
    EXPECT_NE(bytes_of(path("labels-2.svg")).find("No. 11<"), std::string::npos);
}

TEST_F(YarnFiles, ADamagedRecordIsToldAndLeft) {
    done({"add", moss});
    EXPECT_NE(done({"check"}).find("sound"), std::string::npos);
    const std::string whole = bytes_of(path("record.db"));
    for (const std::string& bytes : {std::string("no record at all\n"), whole.substr(0, whole.size() / 2)}) {
        write("record.db", bytes);
        for (const std::vector<std::string>& arguments : {std::vector<std::string>{"list"},
                                                          {"add", "x"},
                                                          {"check"},
                                                          {"export", path("x.json")},
                                                          {"undo"}}) {
            const Finished finished = yarn(arguments);
            EXPECT_EQ(finished.status, EX_DATAERR) << testing::PrintToString(arguments) << finished.err;
            EXPECT_NE((finished.err + finished.out).find("record.db"), std::string::npos);
        }
        EXPECT_TRUE(bytes_of(path("record.db")) == bytes);
    }
}

}  // namespace
}  // namespace ridgetally::blackbox

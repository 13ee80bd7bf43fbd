#include <sysexits.h>

#include <cmath>
#include <fstream>

#include "cli/run_yarn.h"
#include "image/photo.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;
using YarnCommand = WithYarns;

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST_F(YarnCommand, EveryCommandHasHelp) {
    const Finished help = yarn({"--help"});
    EXPECT_EQ(help.status, 0);
    for (const char* command : {"add", "edit", "use", "list", "show", "find", "measure", "correct", "remove",
                                "undo", "import", "export", "labels", "check"}) {
        EXPECT_TRUE(holds(help.out, command)) << command;
        const Finished of_command = yarn({command, "--help"});
        EXPECT_EQ(of_command.status, 0) << command;
        EXPECT_TRUE(holds(of_command.out, "--record")) << command;
    }
    EXPECT_TRUE(holds(help.out, "Examples:"));
}

TEST_F(YarnCommand, TheContractOfTheList) {
    EXPECT_EQ(yarn({"list", "--json"}).json(),
              json::parse(R"({"schema": "ridgetally.yarns/1", "yarns": []})"));
    EXPECT_FALSE(std::filesystem::exists(path("record.db"))) << "looking made a record";
    done({"add", moss});
    const json list = yarn({"list", "--json"}).json();
    ASSERT_EQ(list["yarns"].size(), 1U);
    EXPECT_EQ(list["yarns"][0]["name"], moss);
}

TEST_F(YarnCommand, FromAPhotoToTheYarnThatGivesTheGauge) {
    done({"add", moss, "--weight", "3", "--ball-mass", "50g", "--ball-length", "120m", "--balls", "3 1/2"});
    const Finished saved =
        run({"swatch", "--stitch", "sc", "--worked", "flat", "--hook", "4.5mm", "--state", "washed", "--mass",
             "14g", "--json", "--save", moss, sample("brimful-moss.jpg")});
    ASSERT_EQ(saved.status, 0) << saved.err;
    json report = saved.json();
    EXPECT_EQ(report["saved"]["yarn"], moss);
    EXPECT_EQ(report["saved"]["number"], 1);

    const json shown = yarn({"show", moss, "--json"}).json()["yarns"][0];
    const json& kept = shown["measurements"][0];
    report.erase("saved");
    EXPECT_EQ(kept["report"], report) << "the record keeps the report in full";
    EXPECT_EQ(kept["hook_mm"], 4.5);
    EXPECT_EQ(kept["state"], "washed");
    EXPECT_EQ(kept["photo_sha256"], report["photo"]["sha256"]);
    EXPECT_EQ(shown["gauge_by_hook"][0]["stitches_per_10cm"]["value"],
              report["swatch"]["stitches_per_10cm"]["value"]);

    const std::string stitches = std::to_string(report["swatch"]["stitches_per_10cm"]["value"].get<double>());
    const json matches = yarn({"find", "--gauge", stitches, "--need", "400m", "--json"}).json()["matches"];
    ASSERT_EQ(matches.size(), 1U);
    EXPECT_EQ(matches[0]["name"], moss);
    EXPECT_EQ(matches[0]["hook_mm"], 4.5);
    EXPECT_EQ(matches[0]["enough"], true);

    const std::string text = done({"show", moss, "--plot", path("moss.svg")});
    EXPECT_TRUE(holds(text, "4.5 mm")) << text;
    EXPECT_TRUE(holds(bytes_of(path("moss.svg")), "<svg"));
    done({"show", moss, "--plot", path("moss.png")});
    const auto picture = read_photo(path("moss.png"));
    ASSERT_TRUE(picture.ok());
    EXPECT_EQ(picture->grey.cols, 1600);
    EXPECT_EQ(yarn({"show", moss, "--plot", path("no/such/folder.png")}).status, EX_IOERR);
    EXPECT_EQ(yarn({"show", moss, "--plot", path("moss.gif")}).status, EX_USAGE);
    EXPECT_FALSE(std::filesystem::exists(path("moss.gif")));
}

// 13 over 4 in are 13 / 1.016 over 10 cm; a bare count is read to the nearest half stitch, so evenly likely
// within a quarter to each side (JCGM 100:2008, 4.3.7).
TEST_F(YarnCommand, AGaugeCountedByHand) {
    done({"add", moss});
    EXPECT_TRUE(holds(
        done({"measure", moss, "--gauge", "13x16/4in", "--hook", "5mm", "--stitch", "hdc", "--worked",
              "round", "--state", "washed", "--size", "15x16cm", "--mass", "12.4g", "--day", "2026-11-20"}),
        "number 1"));
    const json shown = yarn({"show", moss, "--json"}).json()["yarns"][0];
    const json& m = shown["measurements"][0];
    EXPECT_NEAR(m["stitches_per_10cm"].get<double>(), 13 / 1.016, 1e-9);
    EXPECT_NEAR(m["stitches_std"].get<double>(), 0.25 / std::sqrt(3.0) / 1.016, 1e-9);
    EXPECT_NEAR(m["rows_per_10cm"].get<double>(), 16 / 1.016, 1e-9);
    EXPECT_EQ(m["hook_mm"], 5.0);
    EXPECT_EQ(m["stitch"], "hdc");
    EXPECT_EQ(m["worked"], "round");
    EXPECT_EQ(m["state"], "washed");
    EXPECT_EQ(m["width_mm"], 150.0);
    EXPECT_EQ(m["height_mm"], 160.0);
    EXPECT_EQ(m["mass_g"], 12.4);
    EXPECT_EQ(m["taken"], "2026-11-20");
    EXPECT_FALSE(m.contains("photo_sha256"));
    EXPECT_EQ(yarn({"measure", "nowhere", "--gauge", "13"}).status, 2);
    for (const std::vector<std::string>& wrong : {std::vector<std::string>{"measure", moss},
                                                  {"measure", moss, "--gauge", "x"},
                                                  {"measure", moss, "--gauge", "18x24 knit"},
                                                  {"find", "--gauge", "18x24 knit"},
                                                  {"measure", moss, "--gauge", "13", "--size", "15cm"},
                                                  {"measure", moss, "--gauge", "13", "--per", "5in"},
                                                  {"measure", moss, "--gauge", "13", "--day", "2026-02-30"}})
        EXPECT_EQ(yarn(wrong).status, EX_USAGE) << testing::PrintToString(wrong);
    EXPECT_EQ(yarn({"measure", moss, "--gauge", "13", "--hook", "7"}).status, EX_USAGE) << "7 of what?";
    EXPECT_EQ(yarn({"show", moss, "--json"}).json()["yarns"][0]["measurements"].size(), 1U);
}

TEST_F(YarnCommand, SavingIsAskedForBeforeMeasuring) {
    done({"add", moss});
    const Finished unknown = run({"swatch", "--save", "Fennelwick", sample("brimful-moss.jpg")});
    EXPECT_EQ(unknown.status, 2);
    EXPECT_EQ(unknown.out, "") << "nothing was measured";
    EXPECT_TRUE(holds(unknown.err, moss)) << unknown.err;
    for (const std::vector<std::string>& wrong : {std::vector<std::string>{"--save", moss, "--batch"},
                                                  {"--hook", "5mm"},
                                                  {"--save", moss, "--hook", "7"},
                                                  {"--save", moss, "--state", "wet"}}) {
        std::vector<std::string> arguments = {"swatch", sample("brimful-moss.jpg")};
        arguments.insert(arguments.end(), wrong.begin(), wrong.end());
        EXPECT_EQ(run(arguments).status, EX_USAGE) << testing::PrintToString(wrong);
    }
}

TEST_F(YarnCommand, ThePhotoSavedTwiceIsMeasuredAndTold) {
    done({"add", moss});
    const std::vector<std::string> arguments = {"swatch", "--stitch", "sc", "--worked",
                                                "flat",   "--save",   moss, sample("brimful-moss.jpg")};
    EXPECT_TRUE(holds(run(arguments).out, "Saved as number 1"));
    const Finished again = run(arguments);
    EXPECT_EQ(again.status, 2);
    EXPECT_TRUE(holds(again.out, "Gauge: "));
    EXPECT_TRUE(holds(again.err, "number 1"));
    done({"remove", "--number", "1"});
    EXPECT_TRUE(holds(run(arguments).out, "Saved as number 2"));
}

TEST_F(YarnCommand, NamesOfAnyKind) {
    for (const char* name : {"Мох", "苔の毛糸 🧶", "two\nlines", "5\" O'Moss'; DROP TABLE yarn; --",
                             "-odd", "list", "[a,b]", "'q'", "\"q\"", "{}", "%s%n", "a\\b"}) {
        done({"add", "--", name});
        EXPECT_EQ(yarn({"show", "--json", "--", name}).json()["yarns"][0]["name"], name);
        done({"edit", "--notes", "seen", "--", name});
        done({"remove", "--", name});
        done({"undo"});
    }
    EXPECT_EQ(yarn({"add", "\xFF\xFE"}).status, 2);
    EXPECT_EQ(yarn({"add", ""}).status, 2);
    EXPECT_EQ(yarn({"list", "--json"}).json()["yarns"].size(), 12U);
}

TEST_F(YarnCommand, EditUseAndCorrect) {
    done({"add", moss, "--balls", "2", "--colour", "Moss"});
    EXPECT_EQ(yarn({"use", moss, "40g"}).status, 2) << "what is on a ball is not known";
    done({"edit", moss, "--ball-mass", "50g", "--balls", "90g"});
    EXPECT_TRUE(holds(done({"use", moss, "40g"}), "1 ball, 50 g"));
    EXPECT_EQ(yarn({"use", moss, "2"}).status, 2);
    done({"edit", moss, "--colour", "", "--balls", "unknown", "--name", "Fern"});
    const json fern = yarn({"show", "Fern", "--json"}).json()["yarns"][0];
    EXPECT_FALSE(fern.contains("colour"));
    EXPECT_FALSE(fern.contains("balls"));
    EXPECT_EQ(yarn({"edit", "Fern"}).status, EX_USAGE);
    EXPECT_EQ(yarn({"remove"}).status, EX_USAGE);
    EXPECT_EQ(yarn({"remove", "Fern", "--number", "1"}).status, EX_USAGE);
    EXPECT_EQ(yarn({"correct", "1", "--hook", "5mm"}).status, 2);

    write("gauges.csv", "yarn,hook_mm,stitches_per_10cm,stitches_std\nFern,4,14,0.2\n");
    done({"import", path("gauges.csv")});
    done({"correct", "1", "--hook", "5mm", "--stitch", "hdc", "--worked", "round", "--state", "washed",
          "--mass", "12g", "--day", "2026-10-01"});
    const json m = yarn({"show", "Fern", "--json"}).json()["yarns"][0]["measurements"][0];
    EXPECT_EQ(m["hook_mm"], 5.0);
    EXPECT_EQ(m["stitch"], "hdc");
    EXPECT_EQ(m["taken"], "2026-10-01");
}

TEST_F(YarnCommand, FaultsAreOneLineAndOneThatHelps) {
    done({"add", moss});
    for (const auto& [arguments, status] : std::vector<std::pair<std::vector<std::string>, int>>{
             {{}, EX_USAGE},
             {{"knit"}, EX_USAGE},
             {{"add"}, EX_USAGE},
             {{"add", moss}, 2},
             {{"add", "x", "--weight", "8"}, EX_USAGE},
             {{"add", "x", "--balls", "40g"}, 2},
             {{"show", "nowhere"}, 2},
             {{"find"}, EX_USAGE},
             {{"find", "--gauge", "0x1"}, EX_USAGE},
             {{"undo"}, 2},
             {{"import", path("missing.csv")}, EX_NOINPUT},
             {{"export", path("no/such/folder.json")}, EX_IOERR},
             {{"labels", path("l.svg")}, 2},
             {{"list", "--record", path("record.db") + "/x.db"}, 0},
             {{"add", "x", "--record", path("record.db") + "/x.db"}, EX_IOERR}}) {
        const Finished finished = yarn(arguments);
        EXPECT_EQ(finished.status, status) << testing::PrintToString(arguments) << finished.err;
        if (status == 0) continue;
        const auto lines = lines_of(finished.err);
        ASSERT_FALSE(lines.empty());
        EXPECT_EQ(lines[0].rfind("ridgetally: ", 0), 0U);
        EXPECT_LE(lines.size(), 2U) << finished.err;
    }
}

TEST_F(YarnCommand, BrokenOutputIsAFaultOfOutput) {
    done({"add", moss});
    for (const Output output : {Output::closed, Output::full_disk, Output::reader_gone}) {
        for (const std::vector<std::string>& arguments :
             {std::vector<std::string>{"list"}, {"show", moss}, {"export", "-"}, {"check"}})
            EXPECT_EQ(yarn(arguments, output).status, EX_IOERR) << testing::PrintToString(arguments);
    }
}

}  // namespace
}  // namespace ridgetally::blackbox

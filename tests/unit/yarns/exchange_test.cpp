#include "yarns/exchange.h"

#include "unit/yarns/example_yarns.h"
#include "yarns/documents.h"
#include "yarns/removal.h"

namespace ridgetally {
namespace {

constexpr const char* today = "2026-11-25";

class Exchange : public WithRecord {
  protected:
    /// A record with awkward names and figures whose decimal form is long.
    [[nodiscard]] Record filled() const {
        Record record = open();
        must(add_yarn(record, moss()));
        for (const auto& name : awkward_names()) {
            Yarn yarn = named(name);
            yarn.colour = name.substr(0, 500);
            yarn.balls = 1.0 / 3.0;
            must(add_yarn(record, yarn));
        }
        Measurement swatch = swatch_on(4.5, 14.1 / 3.0, 16.0);
        swatch.photo_file = "moss \"1\".jpg";
        swatch.photo_sha256 = "0a1b";
        swatch.report =
            R"({"schema":"ridgetally.report/1","z":1e-05,"a":[0.1,14.333333333333334,"ü\n"],"n":null})";
        must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
        must(save_measurement(record, moss().name, swatch));
        must(save_measurement(record, awkward_names()[0], swatch_on(5.0, 13.0, 15.0)));
        must(save_measurement(record, awkward_names()[0], swatch_on(5.0, 13.0, 15.0)));
        must(remove_measurement(record, 1));
        return record;
    }
    [[nodiscard]] Record another() const { return must_open("another.db"); }
    [[nodiscard]] Record must_open(const std::string& name) const {
        return Record::open((folder() / name).string(), Access::change).value();
    }
    static ImportSummary import(const Record& record, const std::string& text,
                                Existing existing = Existing::refused) {
        return must(import_yarns(record, must(read_exchange(text, today)), existing));
    }
    static std::string refusal(const Record& record, const std::string& text,
                               Existing existing = Existing::refused) {
        const auto incoming = read_exchange(text, today);
        if (!incoming) return incoming.refusal().code;
        return code_of(import_yarns(record, *incoming, existing));
    }
};

TEST_F(Exchange, JsonRoundTripIsExact) {
    const std::string json = must(export_json(filled()));
    const Record copy = another();
    const auto summary = import(copy, json);
    EXPECT_EQ(summary.yarns_added, static_cast<int>(awkward_names().size()) + 1);
    EXPECT_EQ(summary.measurements_added, 3);
    EXPECT_EQ(must(export_json(copy)), json);
}

TEST_F(Exchange, JsonHoldsEveryFieldAndTheReport) {
    const auto document = YarnDocument::parse(must(export_json(filled())));
    EXPECT_EQ(document["schema"], "ridgetally.yarns/1");
    for (const auto& yarn : document["yarns"]) {
        if (yarn["name"] != moss().name) continue;
        EXPECT_EQ(must(yarn_from(yarn)), moss());
        ASSERT_EQ(yarn["measurements"].size(), 1U);
        EXPECT_EQ(yarn["measurements"][0]["number"], 2);
        EXPECT_EQ(yarn["measurements"][0]["report"]["a"][1], 14.333333333333334);
        return;
    }
    FAIL() << "the yarn is not there";
}

TEST_F(Exchange, WhatIsThereAlreadyIsNotTakenTwice) {
    const Record record = filled();
    const std::string json = must(export_json(record));
    const auto summary = import(record, json);
    EXPECT_EQ(summary.yarns_added + summary.measurements_added + summary.replaced, 0);
    EXPECT_EQ(summary.already_there, static_cast<int>(awkward_names().size()) + 1 + 3);
    EXPECT_EQ(must(export_json(record)), json);
}

TEST_F(Exchange, WhatDiffersIsRefusedKeptOrReplacedAsTold) {
    const Record record = open();
    Yarn changed = moss();
    changed.balls = 1.0;
    must(add_yarn(record, moss()));
    const Record other = another();
    must(add_yarn(other, named("Aaa")));
    must(add_yarn(other, changed));
    const std::string json = must(export_json(other));

    EXPECT_EQ(refusal(record, json), "differs-from-record");
    // All or nothing: the yarn before it is not there either.
    EXPECT_EQ(must(list_yarns(record)).size(), 1U);

    EXPECT_EQ(import(record, json, Existing::kept).kept, std::vector<std::string>{moss().name});
    EXPECT_EQ(must(find_yarn(record, moss().name)).yarn, moss());
    EXPECT_EQ(import(record, json, Existing::replaced).replaced, 1);
    EXPECT_EQ(must(find_yarn(record, moss().name)).yarn, changed);
}

TEST_F(Exchange, ANumberThatIsTakenGivesWay) {
    const std::string json = must(export_json(filled()));
    const Record record = another();
    must(add_yarn(record, named("Oddmere Four")));
    for (int i = 0; i < 2; ++i) must(save_measurement(record, "Oddmere Four", swatch_on(6.0, 11.0, 12.0)));
    import(record, json);
    const auto stored = must(measurements_of(record, moss().name, Reports::left));
    ASSERT_EQ(stored.size(), 1U);
    EXPECT_GT(stored[0].number, 2);
    EXPECT_EQ(must(measurements_of(record, "Oddmere Four", Reports::left)).size(), 2U);
}

TEST_F(Exchange, DocumentsOfOtherKindsAreRefusedWithTheirFault) {
    const Record record = open();
    const auto yarns = [](const std::string& list) {
        return R"({"schema": "ridgetally.yarns/1", "yarns": )" + list + "}";
    };
    EXPECT_EQ(refusal(record, "{"), "bad-document");
    EXPECT_EQ(refusal(record, "{}"), "bad-document");
    EXPECT_EQ(refusal(record, R"({"schema": "ridgetally.yarns/2", "yarns": []})"), "bad-document");
    EXPECT_EQ(refusal(record, yarns("7")), "bad-document");
    EXPECT_EQ(refusal(record, yarns("[7]")), "bad-document");
    EXPECT_EQ(refusal(record, yarns(R"([{"name": 7, "added": "2026-01-01"}])")), "bad-document");
    EXPECT_EQ(refusal(record, yarns(R"([{"name": "a", "added": "2026-01-01", "shade": "x"}])")),
              "bad-document");
    EXPECT_EQ(refusal(record, yarns(R"([{"name": "a\u0000", "added": "2026-01-01"}])")), "bad-value");
    EXPECT_EQ(refusal(record, yarns(R"([{"name": "a", "added": "2026-01-01", "balls": -1}])")), "bad-value");
    EXPECT_EQ(refusal(record, yarns(R"([{"name": "a", "added": "2026-01-01", "weight_category": 2.5}])")),
              "bad-document");
    EXPECT_EQ(
        refusal(record,
                yarns(R"([{"name": "a", "added": "2026-01-01"}, {"name": "a ", "added": "2026-01-01"}])")),
        "bad-document");
    EXPECT_EQ(refusal(record, yarns("[" + std::string(100000, '[') + std::string(100000, ']') + "]")),
              "bad-document");
    EXPECT_TRUE(must(list_yarns(record)).empty());
}

TEST_F(Exchange, SheetsRoundTrip) {
    const Record record = filled();
    const Record copy = another();
    import(copy, must(export_yarns_csv(record)));
    import(copy, must(export_gauges_csv(record)));
    EXPECT_EQ(must(export_yarns_csv(copy)), must(export_yarns_csv(record)));
    EXPECT_EQ(must(export_gauges_csv(copy)), must(export_gauges_csv(record)));
    // The reports come with the document alone, and join what is there.
    EXPECT_EQ(import(copy, must(export_json(record))).already_there,
              static_cast<int>(awkward_names().size()) + 1 + 3);
    EXPECT_EQ(must(export_json(copy)), must(export_json(record)));
}

TEST_F(Exchange, ASheetMadeByHandNeedsNamesOnly) {
    const Record record = open();
    import(record, "\xEF\xBB\xBFname\nМох\n\"Oddmere, Four\"\n");
    EXPECT_EQ(must(find_yarn(record, "Oddmere, Four")).yarn.added, today);
    // Columns that are not there stay as they are.
    import(record, "balls,name\r\n2.5,Мох\r\n", Existing::replaced);
    import(record, "name,colour,added\nМох,green,\n", Existing::replaced);
    const Yarn yarn = must(find_yarn(record, "Мох")).yarn;
    EXPECT_EQ(yarn.balls, 2.5);
    EXPECT_EQ(yarn.colour, "green");
    EXPECT_EQ(yarn.added, today);
    // An empty cell says that it is not known.
    import(record, "name,balls\nМох,\n", Existing::replaced);
    EXPECT_FALSE(must(find_yarn(record, "Мох")).yarn.balls);
}

TEST_F(Exchange, SheetsWithFaultsAreRefusedWithTheirLine) {
    const Record record = open();
    const auto message = [](const std::string& text) {
        const auto incoming = read_exchange(text, today);
        return incoming ? "" : incoming.refusal().message;
    };
    EXPECT_EQ(refusal(record, ""), "bad-csv");
    EXPECT_NE(message("name;balls\na;1\n").find("semicolons"), std::string::npos);
    EXPECT_NE(message("name,shade\na,1\n").find("\"shade\""), std::string::npos);
    EXPECT_NE(message("name,name\na,1\n").find("twice"), std::string::npos);
    EXPECT_NE(message("colour\ngreen\n").find("\"name\""), std::string::npos);
    EXPECT_NE(message("name,balls\na,1\nb,\"1,5\"\n").find("line 3"), std::string::npos);
    EXPECT_NE(message("name,balls\na,-1\n").find("line 2"), std::string::npos);
    EXPECT_NE(message("yarn,taken,stitches_per_10cm\na,2026-01-01,13\n").find("line 2"), std::string::npos);
    EXPECT_EQ(refusal(record, "yarn,hook_mm\nnowhere,5\n"), "no-such-yarn");
}

}  // namespace
}  // namespace ridgetally

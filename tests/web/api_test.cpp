#include "web/served.h"

namespace ridgetally::served {
namespace {

using nlohmann::json;

/// What the command line prints for the same photo, under the name it was sent with.
json printed(std::vector<std::string> arguments, const std::string& photo) {
    arguments.insert(arguments.end(), {"--json", blackbox::sample(photo)});
    json document = blackbox::run(arguments).json();
    document["photo"]["file"] = photo;
    return document;
}

class Api : public WithServer {};

TEST_F(Api, SwatchCrownAndPieceAreTheDocumentsOfTheCommandLine) {
    const std::vector<std::tuple<std::string, std::string, std::vector<std::string>, json>> cases = {
        {"swatch",
         "brimful-moss.jpg",
         {"swatch", "--stitch", "sc", "--worked", "flat"},
         {{"stitch", "sc"}, {"worked", "flat"}}},
        {"swatch",
         "brimful-moss.jpg",
         {"swatch", "--want", "13x16", "--hook", "5.5mm"},
         {{"want", "13x16"}, {"hook", "5.5mm"}}},
        {"crown",
         "earflap-crown.jpg",
         {"crown", "--want", "16cm", "--stitches", "45"},
         {{"want_diameter", "16cm"}, {"stitches", "45"}}},
        {"piece", "brimful-moss.jpg", {"piece", "--want-width", "13..14cm"}, {{"want_width", "13..14cm"}}}};
    for (const auto& [kind, photo, command, request] : cases) {
        const Answer answer = server().measure(kind, sample_bytes(photo), request, photo);
        ASSERT_EQ(answer.status, 200) << kind << answer.body.substr(0, 300);
        EXPECT_EQ(answer.json()["report"].dump(), printed(command, photo).dump()) << kind;
    }
}

// Two photos of one swatch, and one that shows no ruler: the command line's answer for the same three.
TEST_F(Api, SeveralPhotosOfOneSwatchAreCombinedAsOnTheCommandLine) {
    const std::vector<std::string> names = {"brimful-moss.jpg", "brimful-moss.jpg", "forgot-the-ruler.jpg"};
    std::vector<std::pair<std::string, std::string>> photos;
    std::vector<std::string> command = {"swatch", "--stitch", "sc", "--worked", "flat", "--json"};
    for (const auto& name : names) {
        photos.emplace_back(name, sample_bytes(name));
        command.push_back(blackbox::sample(name));
    }
    const Answer answer = server().measure_together("swatch", photos, {{"stitch", "sc"}, {"worked", "flat"}});
    ASSERT_EQ(answer.status, 200) << answer.body.substr(0, 300);
    json report = answer.json()["report"];
    json wanted = blackbox::run(command).json();
    ASSERT_EQ(report["photos"].size(), 2U);
    EXPECT_EQ(report["swatch"].dump(), wanted["swatch"].dump());
    ASSERT_EQ(report["warnings"].size(), wanted["warnings"].size());
    EXPECT_EQ(report["warnings"].back()["code"], "photo-left-out");
    EXPECT_NE(report["warnings"].back()["message"].get<std::string>().find("forgot-the-ruler.jpg"),
              std::string::npos);
}

TEST_F(Api, OfSeveralPhotosNoneOfWhichCanBeMeasuredTheFirstIsRefused) {
    const std::string bare = sample_bytes("forgot-the-ruler.jpg");
    const Answer answer = server().measure_together("swatch", {{"a.jpg", bare}, {"b.jpg", bare}}, {});
    ASSERT_EQ(answer.status, 422);
    EXPECT_EQ(answer.json()["refusal"]["photo"]["file"], "a.jpg");
    EXPECT_EQ(answer.json()["refusal"]["refusal"]["code"], "no-ruler");
}

TEST_F(Api, AFileAmongSeveralThatIsNoPhotoIsNamed) {
    const std::string photo = sample_bytes("brimful-moss.jpg");
    const Answer text = server().measure_together("swatch", {{"a.jpg", photo}, {"notes.jpg", "words"}}, {});
    EXPECT_EQ(text.error(), "not-a-photo");
    EXPECT_NE(text.body.find("notes.jpg"), std::string::npos) << text.body;
    EXPECT_EQ(server().measure_together("swatch", {{"a.jpg", photo}, {"b.jpg", ""}}, {}).status, 400);
    EXPECT_EQ(server().measure_together("swatch", {}, {}).status, 400);
    const std::vector<std::pair<std::string, std::string>> many(13, {"a.jpg", "x"});
    EXPECT_EQ(server().measure_together("swatch", many, {}).status, 413);
}

TEST_F(Api, ThePictureIsAJpegOfThePhotosFrame) {
    const json answer =
        server().measure("swatch", sample_bytes("brimful-moss.jpg"), {{"stitch", "sc"}}).json();
    const json& photo = answer["report"]["photo"];
    const json& picture = answer["picture"];
    EXPECT_NEAR(picture["width_px"].get<double>() / picture["height_px"].get<double>(),
                photo["width_px"].get<double>() / photo["height_px"].get<double>(), 0.002);
    // A JPEG begins with FF D8 FF (ITU-T T.81, B.1.1.3): "/9j/" in base64 (RFC 4648).
    EXPECT_TRUE(picture["jpeg_base64"].get<std::string>().starts_with("/9j/"));
}

TEST_F(Api, TheSamePhotoGivesTheSameBytes) {
    const std::string photo = sample_bytes("brimful-moss.jpg");
    EXPECT_EQ(server().measure("swatch", photo, {{"stitch", "sc"}}).body,
              server().measure("swatch", photo, {{"stitch", "sc"}}).body);
}

TEST_F(Api, APhotoThatCannotBeMeasuredIsRefusedWithItsPicture) {
    const Answer answer =
        server().measure("swatch", sample_bytes("forgot-the-ruler.jpg"), {}, "forgot-the-ruler.jpg");
    ASSERT_EQ(answer.status, 422);
    EXPECT_EQ(answer.json()["refusal"].dump(), printed({"swatch"}, "forgot-the-ruler.jpg").dump());
    EXPECT_GT(answer.json()["picture"]["width_px"], 0);
}

TEST_F(Api, WhatIsSetByHandIsMeasuredAndSaid) {
    const std::string photo = sample_bytes("brimful-moss.jpg");
    const json plain = server().measure("swatch", photo, {{"stitch", "sc"}}).json()["report"];
    EXPECT_FALSE(plain.contains("corrected"));
    const json corrected =
        server()
            .measure("swatch", photo, json::parse(R"({"stitch": "sc", "unit": "mm", "rows_deg": 0, "area_px":
                                            [[500, 400], [1200, 400], [1200, 900], [500, 900]]})"))
            .json()["report"];
    EXPECT_EQ(corrected["corrected"], json({"unit", "area", "rows"}));
    const double stitches = plain["swatch"]["stitches_per_10cm"]["value"];
    EXPECT_NEAR(corrected["swatch"]["stitches_per_10cm"]["value"].get<double>(), stitches, 0.03 * stitches);
}

// 10 cm where 8 were said before: stitches are so much larger, and 8 are there where 10 were.
TEST_F(Api, TheScaleOfTwoPointsIsTakenAtItsWord) {
    const std::string photo = sample_bytes("brimful-moss.jpg");
    const auto stitches = [&](const char* length) {
        nlohmann::json request = nlohmann::json::parse(R"({"stitch": "sc", "area_px":
            [[500, 400], [1200, 400], [1200, 900], [500, 900]],
            "scale": {"from_px": [600, 650], "to_px": [1200, 650]}})");
        request["scale"]["length"] = length;
        const Answer answer = server().measure("swatch", photo, request);
        EXPECT_EQ(answer.json()["report"]["corrected"], json({"scale", "area"}))
            << answer.body.substr(0, 300);
        return answer.json()["report"]["swatch"]["stitches_per_10cm"]["value"].get<double>();
    };
    const double once = stitches("8cm");
    EXPECT_NEAR(stitches("10cm"), once * 0.8, 0.01 * once);
}

TEST_F(Api, ARivalReadingIsAccepted) {
    const std::string photo = sample_bytes("brimful-moss.jpg");
    const json plain = server().measure("swatch", photo, {{"stitch", "sc"}}).json()["report"];
    const json accepted =
        server().measure("swatch", photo, {{"stitch", "sc"}, {"reading", 1}}).json()["report"];
    EXPECT_EQ(accepted["corrected"], json({"reading"}));
    // The rival's figure is of the first search, good to the 15 % that the refinement starts from.
    const double rival = plain["rivals"][0]["stitches_per_10cm"];
    EXPECT_NEAR(accepted["swatch"]["stitches_per_10cm"]["value"].get<double>(), rival, 0.15 * rival);
    EXPECT_EQ(server().measure("swatch", photo, {{"stitch", "sc"}, {"reading", 9}}).status, 422);
}

TEST_F(Api, TheRimOfACrownIsTakenAsTold) {
    const json truth = json::parse(sample_bytes("earflap-crown.truth.json"))["cases"][0];
    json rim = json::array();
    const json& outline = truth["outline_px"];
    for (std::size_t i = 0; i < 12; ++i) rim.push_back(outline[i * outline.size() / 12]);
    const json report =
        server().measure("crown", sample_bytes("earflap-crown.jpg"), {{"rim_px", rim}}).json()["report"];
    EXPECT_EQ(report["corrected"], json({"rim"}));
    const json& diameter = report["crown"]["diameter_mm"];
    const double least = truth["diameter_min_mm"];
    const double most = truth["diameter_max_mm"];
    EXPECT_LE(diameter["low95"].get<double>(), most);
    EXPECT_GE(diameter["high95"].get<double>(), least);
}

TEST_F(Api, NotAPhotoIsTold) {
    for (const std::string& bytes :
         {std::string("not a photo"), std::string(1000, '\0'), std::string("\xFF\xD8\xFF")})
        EXPECT_EQ(server().measure("swatch", bytes, {}).status, 415);
    EXPECT_EQ(server().measure("swatch", "", {}).error(), "bad-request");
    const std::string whole = sample_bytes("brimful-moss.jpg");
    EXPECT_EQ(server().measure("swatch", whole.substr(0, whole.size() / 2), {}).error(), "damaged-photo");
}

TEST_F(Api, TheCalculatorAnswersWhatTheCommandsPrint) {
    const std::vector<std::tuple<std::string, json, std::vector<std::string>>> cases = {
        {"hook",
         {{"have", "12.5x15"}, {"want", "13x16"}, {"hook", "5.5mm"}, {"why", true}},
         {"--have", "12.5x15", "--want", "13x16", "--hook", "5.5mm", "--why"}},
        {"hat",
         {{"head", {"56cm", "52cm"}}, {"gauge", "14x16"}, {"stitch", "sc"}, {"units", "in"}},
         {"--head", "56cm", "--head", "52cm", "--gauge", "14x16", "--stitch", "sc", "--units", "in"}},
        {"yarn-needed",
         {{"swatch_mass", "12.4g"}, {"swatch_area", "15x15cm"}, {"head", "56cm"}, {"ball", "50g/87yd"}},
         {"--swatch-mass", "12.4g", "--swatch-area", "15x15cm", "--head", "56cm", "--ball", "50g/87yd"}}};
    for (const auto& [name, request, command] : cases) {
        const Answer answer = server().post("/api/" + name, request);
        ASSERT_EQ(answer.status, 200) << answer.body;
        auto arguments = command;
        arguments.insert(arguments.begin(), name);
        arguments.insert(arguments.end(), {"--record", path("record.db")});
        if (name != "hook") arguments.resize(arguments.size() - 2);
        EXPECT_EQ(answer.json()["text"], blackbox::run(arguments).out) << name;
        arguments.emplace_back("--json");
        EXPECT_EQ(answer.json()["document"].dump(), blackbox::run(arguments).json().dump()) << name;
    }
}

TEST_F(Api, WrongValuesOfTheCalculatorAreTold) {
    EXPECT_EQ(server().post("/api/hook", {{"want", "13x16"}}).error(), "no-gauge");
    EXPECT_EQ(server().post("/api/hook", {{"have", "13x16"}}).status, 400);
    EXPECT_EQ(server().post("/api/hat", {{"head", "9cm"}, {"gauge", "14x16"}}).status, 400);
    EXPECT_EQ(server().post("/api/hat", {{"gauge", "14x16"}, {"measured", "/etc/hostname"}}).error(),
              "bad-request");
    EXPECT_EQ(server().send("POST", "/api/hat", "[1, 2").error(), "bad-request");
    EXPECT_EQ(server().send("POST", "/api/hat", std::string(60000, '[')).error(), "bad-request");
}

}  // namespace
}  // namespace ridgetally::served

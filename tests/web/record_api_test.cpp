#include "web/served.h"

namespace ridgetally::served {
namespace {

using nlohmann::json;

class RecordApi : public WithServer {
  protected:
    json yarn(const std::string& name) {
        return server().get("/api/yarns/by-name?name=" + name).json()["yarns"][0];
    }
};

TEST_F(RecordApi, AYarnIsAddedChangedUsedRemovedAndBroughtBack) {
    EXPECT_EQ(server().get("/api/yarns").json()["yarns"], json::array());
    const Answer added =
        server().post("/api/yarns", {{"name", "Moss"}, {"ball_g", 50}, {"ball_m", 120}, {"balls", 3}});
    EXPECT_EQ(added.status, 201);
    EXPECT_EQ(added.json()["yarns"][0]["grams_left"], 150.0);
    EXPECT_EQ(server().post("/api/yarns", {{"name", "Moss"}}).error(), "name-taken");

    EXPECT_EQ(server()
                  .send("PATCH", "/api/yarns/by-name?name=Moss", R"({"colour": "green", "ball_m": null})")
                  .status,
              200);
    EXPECT_EQ(yarn("Moss")["colour"], "green");
    EXPECT_FALSE(yarn("Moss").contains("ball_m"));

    EXPECT_EQ(server().post("/api/yarns/use?name=Moss", {{"amount", "1 1/2"}}).status, 200);
    EXPECT_EQ(yarn("Moss")["balls"], 1.5);
    EXPECT_EQ(server().post("/api/yarns/use?name=Moss", {{"amount", "5"}}).error(), "not-enough");

    EXPECT_EQ(server().send("DELETE", "/api/yarns/by-name?name=Moss", "").json()["removed"]["yarn"], "Moss");
    EXPECT_EQ(server().get("/api/yarns/by-name?name=Moss").status, 404);
    EXPECT_EQ(server().send("POST", "/api/yarns/undo", "").json()["brought_back"]["yarn"], "Moss");
    EXPECT_EQ(yarn("Moss")["balls"], 1.5);
    EXPECT_EQ(server().send("POST", "/api/yarns/undo", "{}").error(), "nothing-removed");
}

TEST_F(RecordApi, AMeasurementIsSavedAndFoundAgainWithWhatWasCorrected) {
    ASSERT_EQ(server().post("/api/yarns", {{"name", "Moss & Fern"}}).status, 201);
    const json request = {
        {"stitch", "sc"},
        {"rows_deg", 0},
        {"save", {{"yarn", "Moss & Fern"}, {"hook", "4.5mm"}, {"state", "washed"}, {"mass", "12g"}}}};
    const std::string photo = sample_bytes("brimful-moss.jpg");
    const Answer saved = server().measure("swatch", photo, request, "moss.jpg");
    ASSERT_EQ(saved.status, 200) << saved.body.substr(0, 300);
    EXPECT_EQ(saved.json()["saved"], json({{"yarn", "Moss & Fern"}, {"number", 1}}));

    const json stored = yarn("Moss%20%26%20Fern")["measurements"][0];
    EXPECT_EQ(stored["hook_mm"], 4.5);
    EXPECT_EQ(stored["state"], "washed");
    EXPECT_EQ(stored["photo_file"], "moss.jpg");
    EXPECT_EQ(stored["report"]["corrected"], json({"rows"}));

    const json match = server().get("/api/yarns/find?gauge=17x19&tolerance=5%25").json()["matches"][0];
    EXPECT_EQ(match["name"], "Moss & Fern");
    EXPECT_EQ(match["hook_mm"], 4.5);
    EXPECT_EQ(server().get("/api/yarns/plot.svg?name=Moss%20%26%20Fern").type, "image/svg+xml");
    EXPECT_EQ(server().measure("swatch", photo, request).error(), "photo-saved");
    const auto text = blackbox::run({"yarn", "show", "Moss & Fern", "--record", path("record.db")}).out;
    EXPECT_NE(text.find("set by hand"), std::string::npos) << text;
    // What the command line shows is the same.
    const auto shown =
        blackbox::run({"yarn", "show", "Moss & Fern", "--json", "--record", path("record.db")});
    EXPECT_EQ(server().get("/api/yarns/by-name?name=Moss%20%26%20Fern").json().dump(), shown.json().dump());
}

TEST_F(RecordApi, SavingToAYarnThatIsNotThereIsTold) {
    const json request = {{"save", {{"yarn", "Nobody"}, {"hook", "4.5mm"}}}};
    EXPECT_EQ(server().measure("swatch", sample_bytes("brimful-moss.jpg"), request).error(), "no-such-yarn");
}

TEST_F(RecordApi, WrongValuesAreTold) {
    EXPECT_EQ(server().post("/api/yarns", {{"name", ""}}).status, 400);
    EXPECT_EQ(server().post("/api/yarns", {{"name", "A"}, {"price", 5}}).status, 400);
    EXPECT_EQ(server().post("/api/yarns", {{"name", "A"}, {"weight_category", 99}}).status, 400);
    EXPECT_EQ(server().send("POST", "/api/yarns", "").status, 400);
    EXPECT_EQ(server().get("/api/yarns/find").status, 400);
    EXPECT_EQ(server().get("/api/yarns/find?gauge=14x16&file=x").status, 400);
    EXPECT_EQ(server().get("/api/yarns/by-name").status, 404);
}

TEST_F(RecordApi, ADamagedRecordIsToldWithoutItsPath) {
    ASSERT_EQ(server().post("/api/yarns", {{"name", "Moss"}}).status, 201);
    write("record.db", std::string(4096, 'x'));
    const Answer answer = server().get("/api/yarns");
    EXPECT_EQ(answer.status, 500);
    EXPECT_EQ(answer.body.find("record.db"), std::string::npos);
    EXPECT_EQ(answer.body.find("/tmp"), std::string::npos);
}

}  // namespace
}  // namespace ridgetally::served

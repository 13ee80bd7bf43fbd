#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/api/server.h"

namespace ridgetally::api {
namespace {

std::string lower(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

TEST(Routes, EveryOneIsDescribedAndEveryDescribedOneIsServed) {
    const auto knowledge = load_knowledge();
    ASSERT_TRUE(knowledge.ok());
    web::Workers workers({}, [](const std::string&) {});
    const Context context{*knowledge, workers, "", {}};
    std::set<std::string> served;
    for (const auto& route : all_routes(context)) {
        const bool page = route.path.starts_with("/page/");
        served.insert(lower(route.method) + " " + (page ? "/page/{name}" : route.path));
    }
    std::set<std::string> described = {"get /page/{name}"};  // there may be no file besides the page itself
    served.insert("get /page/{name}");
    std::ifstream stream(std::string(RIDGETALLY_SOURCE_DIR) + "/src/cli/api/openapi.json");
    const auto document = nlohmann::json::parse(stream);
    EXPECT_EQ(document["openapi"], "3.1.0");
    for (const auto& [path, operations] : document["paths"].items())
        for (const auto& [method, ignored] : operations.items()) described.insert(method + " " + path);
    EXPECT_EQ(served, described);
}

}  // namespace
}  // namespace ridgetally::api

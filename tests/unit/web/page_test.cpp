#include "web/page.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace ridgetally::web {
namespace {

TEST(Page, HoldsTheFilesOfItsFolderByteForByte) {
    ASSERT_FALSE(page_files().empty());
    for (const auto& file : page_files()) {
        std::ifstream stream(std::string(RIDGETALLY_SOURCE_DIR) + "/src/web/page/" + std::string(file.name),
                             std::ios::binary);
        const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
        EXPECT_EQ(std::string(file.bytes.begin(), file.bytes.end()), bytes) << file.name;
    }
}

TEST(Page, EveryFileHasATypeThatBrowsersKnow) {
    for (const auto& file : page_files())
        EXPECT_NE(content_type_of(file.name), "application/octet-stream") << file.name;
    EXPECT_EQ(content_type_of("app.js"), "text/javascript; charset=utf-8");  // RFC 9239
    EXPECT_EQ(content_type_of("x"), "application/octet-stream");
}

TEST(Page, IsAskedForAgainOnlyWhereItChanged) {
    const auto routes = page_routes(page_files());
    const auto index =
        std::find_if(routes.begin(), routes.end(), [](const Route& r) { return r.path == "/"; });
    ASSERT_NE(index, routes.end());
    const Reply first = index->answer({});
    EXPECT_EQ(first.status, 200);
    ASSERT_EQ(first.headers.front().first, "ETag");
    Request again;
    again.headers.emplace("if-none-match", first.headers.front().second);
    EXPECT_EQ(index->answer(again).status, 304);
    EXPECT_TRUE(index->answer(again).body.empty());
}

}  // namespace
}  // namespace ridgetally::web

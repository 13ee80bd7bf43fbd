#include "web/secret.h"

#include <gtest/gtest.h>

#include <set>

namespace ridgetally::web {
namespace {

TEST(Secret, Is160BitsOfBase64urlAndNeverTheSame) {
    std::set<std::string> seen;
    for (int i = 0; i < 1000; ++i) {
        const std::string secret = new_secret();
        EXPECT_EQ(secret.size(), 27U);
        EXPECT_EQ(
            secret.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"),
            std::string::npos);
        seen.insert(secret);
    }
    EXPECT_EQ(seen.size(), 1000U);
}

TEST(Secret, OnlyTheWholeSecretIsTheSame) {
    EXPECT_TRUE(same_secret("abcdef", "abcdef"));
    for (const char* wrong : {"", "a", "abcde", "abcdefa", "abcdefabcdef", "abcdeF", "Abcdef"})
        EXPECT_FALSE(same_secret(wrong, "abcdef")) << wrong;
}

TEST(Secret, AnEmptyOneIsMatchedByNothing) {
    EXPECT_FALSE(same_secret("", ""));
    EXPECT_FALSE(same_secret("a", ""));
}

// RFC 6265, section 4.2.1: "SID=31d4d96e407aad42; lang=en-US" is its own example.
TEST(Cookie, IsFoundByItsWholeName) {
    const std::string header = "SID=31d4d96e407aad42; lang=en-US";
    EXPECT_EQ(cookie_value(header, "SID"), "31d4d96e407aad42");
    EXPECT_EQ(cookie_value(header, "lang"), "en-US");
    EXPECT_EQ(cookie_value(header, "ID"), std::nullopt);
    EXPECT_EQ(cookie_value(header, "SI"), std::nullopt);
}

TEST(Cookie, BrokenHeadersHaveNone) {
    for (const char* header : {"", ";", "SID", "; ;", "=x", " ; SID"})
        EXPECT_EQ(cookie_value(header, "SID"), std::nullopt) << header;
    EXPECT_EQ(cookie_value("a=1; SID=", "SID"), "");
    EXPECT_EQ(cookie_value("SID=1; SID=2", "SID"), "1");
    EXPECT_EQ(cookie_value("SID=a=b", "SID"), "a=b");
}

}  // namespace
}  // namespace ridgetally::web

#include "web/form_parts.h"

#include <gtest/gtest.h>

namespace ridgetally::web {
namespace {

TEST(FormParts, CollectsPhotoAndRequest) {
    FormParts form(100);
    ASSERT_TRUE(form.begin("photo", "a.jpg"));
    ASSERT_TRUE(form.add("ab"));
    ASSERT_TRUE(form.add("c"));
    ASSERT_TRUE(form.begin("request", ""));
    ASSERT_TRUE(form.add("{}"));
    const auto parts = form.take();
    EXPECT_EQ(parts.at("photo").content, "abc");
    EXPECT_EQ(parts.at("photo").file_name, "a.jpg");
    EXPECT_EQ(parts.at("request").content, "{}");
}

TEST(FormParts, OtherPartsAndPartsTwiceEndTheReading) {
    FormParts other(100);
    EXPECT_FALSE(other.begin("file", ""));
    EXPECT_EQ(other.fault()->status, 400);
    FormParts twice(100);
    EXPECT_TRUE(twice.begin("photo", "a"));
    EXPECT_FALSE(twice.begin("photo", "b"));
    EXPECT_EQ(twice.fault()->status, 400);
}

TEST(FormParts, ARequestPartIsNoPlaceForAPhoto) {
    FormParts form(std::size_t{10} << 20U);
    ASSERT_TRUE(form.begin("request", ""));
    EXPECT_TRUE(form.add(std::string(64 * 1024, ' ')));
    EXPECT_FALSE(form.add(" "));
    EXPECT_EQ(form.fault()->status, 413);
}

TEST(FormParts, APhotoIsNoLongerThanTheFormSaid) {
    FormParts form(10);
    ASSERT_TRUE(form.begin("photo", "a"));
    EXPECT_FALSE(form.add("12345678901"));
}

TEST(FormParts, ContentBeforeAnyPartEndsTheReading) { EXPECT_FALSE(FormParts(10).add("x")); }

}  // namespace
}  // namespace ridgetally::web

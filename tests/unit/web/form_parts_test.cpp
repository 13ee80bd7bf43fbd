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

TEST(FormParts, OtherPartsAndTwoRequestsEndTheReading) {
    FormParts other(100);
    EXPECT_FALSE(other.begin("file", ""));
    EXPECT_EQ(other.fault()->status, 400);
    FormParts twice(100);
    EXPECT_TRUE(twice.begin("request", ""));
    EXPECT_FALSE(twice.begin("request", ""));
    EXPECT_EQ(twice.fault()->status, 400);
}

// RFC 7578, 4.3: several files of one field are parts of the same name.
TEST(FormParts, SeveralPhotosKeepTheirOrder) {
    FormParts form(100);
    for (const char* name : {"a.jpg", "b.jpg", "a.jpg"}) {
        ASSERT_TRUE(form.begin("photo", name));
        ASSERT_TRUE(form.add(std::string("bytes of ") + name));
    }
    const auto parts = form.take();
    ASSERT_EQ(parts.size(), 3U);
    EXPECT_EQ(parts.at(photo_part_name(0)).file_name, "a.jpg");
    EXPECT_EQ(parts.at(photo_part_name(1)).content, "bytes of b.jpg");
    EXPECT_EQ(parts.at(photo_part_name(2)).content, "bytes of a.jpg");
}

TEST(FormParts, TooManyPhotosEndTheReading) {
    FormParts form(1000);
    for (std::size_t i = 0; i < most_photos; ++i) ASSERT_TRUE(form.begin("photo", "a"));
    EXPECT_FALSE(form.begin("photo", "a"));
    EXPECT_EQ(form.fault()->status, 413);
}

TEST(FormParts, PhotosTogetherAreNoLongerThanTheFormSaid) {
    FormParts form(10);
    ASSERT_TRUE(form.begin("photo", "a"));
    EXPECT_TRUE(form.add("123456"));
    ASSERT_TRUE(form.begin("photo", "b"));
    EXPECT_TRUE(form.add("1234"));
    EXPECT_FALSE(form.add("5"));
    EXPECT_EQ(form.fault()->status, 413);
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

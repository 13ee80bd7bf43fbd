#include "web/door.h"

#include <gtest/gtest.h>

namespace ridgetally::web {
namespace {

constexpr const char* secret = "0123456789abcdefghijklmnopq";

Door on_this_computer() { return {hosts_for({"localhost", "127.0.0.1"}, 8737), std::nullopt, "cookie"}; }

Door in_the_network() {
    Door door = on_this_computer();
    door.hosts.merge(hosts_for({"192.168.1.7"}, 8737));
    door.secret = secret;
    return door;
}

Request head(const std::string& method, const std::string& path, const std::string& host = "127.0.0.1:8737") {
    Request request;
    request.method = method;
    request.path = path;
    request.headers.emplace("host", host);
    return request;
}

Request with(Request request, const std::string& name, const std::string& value) {
    request.headers.emplace(name, value);
    return request;
}

int status(const Request& request, const Door& door) {
    const auto reply = turned_away(request, door);
    return reply ? reply->status : 0;
}

TEST(Host, OnlyAddressesThatAreListenedOnAreLetIn) {
    const Door door = on_this_computer();
    EXPECT_EQ(status(head("GET", "/"), door), 0);
    EXPECT_EQ(status(head("GET", "/", "LocalHost:8737"), door), 0);
    for (const char* other : {"rebound.example:8737", "127.0.0.1", "127.0.0.1:80", "localhost.:8737", "",
                              "127.0.0.1:8737.example", "192.168.1.7:8737"})
        EXPECT_EQ(status(head("GET", "/", other), door), 421) << other;
}

TEST(Host, MissingOrTwiceIsRefused) {
    Request none = head("GET", "/");
    none.headers.clear();
    EXPECT_EQ(status(none, on_this_computer()), 400);
    EXPECT_EQ(status(with(head("GET", "/"), "host", "127.0.0.1:8737"), on_this_computer()), 400);
}

TEST(Host, PortIsLeftAwayOnlyWhereItIsThatOfHttp) {
    EXPECT_TRUE(hosts_for({"localhost"}, 80).contains("localhost"));
    EXPECT_FALSE(hosts_for({"localhost"}, 8080).contains("localhost"));
}

TEST(Origin, PagesOfOtherSitesAreTurnedAway) {
    const Door door = on_this_computer();
    EXPECT_EQ(status(with(head("GET", "/api/yarns"), "origin", "http://127.0.0.1:8737"), door), 0);
    for (const char* other : {"http://evil.example", "https://127.0.0.1:8737", "http://127.0.0.1:8738",
                              "null", "", "http://localhost:8737"})
        EXPECT_EQ(status(with(head("GET", "/api/yarns"), "origin", other), door), 403) << other;
}

TEST(Origin, AnotherSiteMayLinkToThePageAndNoMore) {
    const Door door = on_this_computer();
    EXPECT_EQ(status(with(head("GET", "/"), "sec-fetch-site", "cross-site"), door), 0);
    EXPECT_EQ(status(with(head("GET", "/api/yarns"), "sec-fetch-site", "cross-site"), door), 403);
    EXPECT_EQ(status(with(head("GET", "/api/yarns"), "sec-fetch-site", "same-site"), door), 403);
    EXPECT_EQ(status(with(head("GET", "/api/yarns"), "sec-fetch-site", "same-origin"), door), 0);
    EXPECT_EQ(status(with(head("GET", "/api/yarns"), "sec-fetch-site", "none"), door), 0);
}

TEST(Header, ChangesNeedTheHeaderThatFormsCannotSend) {
    const Door door = on_this_computer();
    for (const char* method : {"POST", "PATCH", "DELETE", "PUT"}) {
        EXPECT_EQ(status(head(method, "/api/yarns"), door), 403) << method;
        EXPECT_EQ(status(with(head(method, "/api/yarns"), write_header, "0"), door), 403) << method;
        EXPECT_EQ(status(with(head(method, "/api/yarns"), write_header, "1"), door), 0) << method;
    }
}

TEST(Key, NothingIsServedWithoutIt) {
    const Door door = in_the_network();
    for (const char* path : {"/", "/health", "/page/app.js", "/openapi.json", "/api/yarns", "/nothing"})
        EXPECT_EQ(status(head("GET", path, "192.168.1.7:8737"), door), 401) << path;
    EXPECT_EQ(status(with(head("POST", "/api/hook"), write_header, "1"), door), 401);
}

TEST(Key, OfTheCodeGivesTheCookieAndNotTheSecretInTheAddress) {
    Request request = head("GET", "/", "192.168.1.7:8737");
    request.query["key"] = secret;
    const auto reply = turned_away(request, in_the_network());
    ASSERT_TRUE(reply);
    EXPECT_EQ(reply->status, 303);
    const std::vector<Header> expected = {
        {"Location", "/"},
        {"Set-Cookie", std::string("cookie=") + secret + "; Path=/; HttpOnly; SameSite=Strict"}};
    EXPECT_EQ(reply->headers, expected);
}

TEST(Key, WrongOnesAreRefused) {
    const Door door = in_the_network();
    for (const std::string wrong : {"", "0", "0123456789abcdefghijklmnopr", "0123456789abcdefghijklmnopqq"}) {
        Request request = head("GET", "/", "192.168.1.7:8737");
        request.query["key"] = wrong;
        EXPECT_EQ(status(request, door), 401) << wrong;
        EXPECT_EQ(status(with(head("GET", "/", "192.168.1.7:8737"), "cookie", "cookie=" + wrong), door), 401)
            << wrong;
    }
}

TEST(Key, IsTakenInTheAddressOfThePageOnly) {
    Request request = head("GET", "/api/yarns", "192.168.1.7:8737");
    request.query["key"] = secret;
    EXPECT_EQ(status(request, in_the_network()), 401);
}

TEST(Key, TheCookieLetsIn) {
    const Request request =
        with(head("GET", "/api/yarns", "192.168.1.7:8737"), "cookie", std::string("a=b; cookie=") + secret);
    EXPECT_EQ(status(request, in_the_network()), 0);
}

}  // namespace
}  // namespace ridgetally::web

#include "web/router.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace ridgetally::web {
namespace {

constexpr BodyLimits limits{.json_bytes = 100, .form_bytes = 1000, .all_bytes = 1500};

Reply said(const std::string& what) { return {200, "text/plain", what, {}}; }

class RouterTest : public testing::Test {
  protected:
    Router router{{{"GET", "/a", Takes::nothing, [](const Request&) { return said("got"); }},
                   {"POST", "/a", Takes::json, [](const Request& r) { return said(r.body); }},
                   {"POST", "/form", Takes::form, [](const Request&) { return said("form"); }},
                   {"GET", "/fault", Takes::nothing,
                    [](const Request&) -> Reply { throw std::runtime_error("/home/secret/path"); }}},
                  Door{{"here"}, std::nullopt, "cookie"},
                  limits,
                  [this](const std::string& what) { told.push_back(what); }};
    std::vector<std::string> told;

    static Request head(const std::string& method, const std::string& path, const std::string& type = "",
                        const std::string& length = "") {
        Request request;
        request.method = method;
        request.path = path;
        request.headers = {{"host", "here"}, {"x-ridgetally", "1"}};
        if (!type.empty()) request.headers.emplace("content-type", type);
        if (!length.empty()) request.headers.emplace("content-length", length);
        return request;
    }
    [[nodiscard]] int refused(const Request& request) const {
        const auto admission = router.admit(request);
        return admission.reply ? admission.reply->status : 0;
    }
};

TEST_F(RouterTest, LeadsToTheRouteOfMethodAndPath) {
    EXPECT_EQ(router.answer(head("GET", "/a")).body, "got");
    EXPECT_EQ(router.answer(head("HEAD", "/a")).body, "got");
    EXPECT_EQ(refused(head("GET", "/b")), 404);
    EXPECT_EQ(refused(head("GET", "/a/")), 404);
    EXPECT_EQ(refused(head("GET", "/a/../a")), 404);
    EXPECT_EQ(refused(head("DELETE", "/a")), 405);
    EXPECT_EQ(router.admit(head("DELETE", "/a")).reply->headers.front(), (Header{"Allow", "GET, POST"}));
}

TEST_F(RouterTest, BodiesAreReadOnlyWithTheirKindAndLength) {
    EXPECT_EQ(router.admit(head("POST", "/a", "application/json", "100")).body_bytes, 100U);
    EXPECT_EQ(refused(head("POST", "/a", "application/json; charset=utf-8", "2")), 0);
    EXPECT_EQ(refused(head("POST", "/a", "application/json", "101")), 413);
    EXPECT_EQ(refused(head("POST", "/a", "text/plain", "2")), 415);
    EXPECT_EQ(refused(head("POST", "/a", "application/json", "-1")), 411);
    EXPECT_EQ(refused(head("POST", "/a", "application/json", "99999999999999999999999")), 411);
    EXPECT_EQ(refused(head("POST", "/form", "multipart/form-data; boundary=x", "1000")), 0);
    EXPECT_EQ(refused(head("POST", "/form", "multipart/form-data; boundary=x", "1001")), 413);
    EXPECT_EQ(refused(head("POST", "/form", "multipart/form-data; boundary=x")), 411);
    EXPECT_EQ(refused(head("POST", "/form", "application/json", "2")), 415);
    EXPECT_EQ(refused(head("GET", "/a", "", "1")), 413);
}

TEST_F(RouterTest, PackedAndEndlessBodiesAreRefused) {
    Request packed = head("POST", "/a", "application/json", "2");
    packed.headers.emplace("content-encoding", "gzip");
    EXPECT_EQ(refused(packed), 415);
    Request endless = head("POST", "/a", "application/json");
    endless.headers.emplace("transfer-encoding", "chunked");
    EXPECT_EQ(refused(endless), 411);
}

TEST_F(RouterTest, AllBodiesTogetherStayWithinTheBudget) {
    const Request large = head("POST", "/form", "multipart/form-data; boundary=x", "1000");
    auto first = router.admit(large);
    EXPECT_FALSE(first.reply);
    const auto second = router.admit(large);
    ASSERT_TRUE(second.reply);
    EXPECT_EQ(second.reply->status, 503);
    EXPECT_EQ(second.reply->headers.front().first, "Retry-After");
    first.lease.reset();
    EXPECT_FALSE(router.admit(large).reply);
}

TEST_F(RouterTest, AFaultIsToldToWhoeverRunsTheServerAndNotToTheClient) {
    const Reply reply = router.answer(head("GET", "/fault"));
    EXPECT_EQ(reply.status, 500);
    EXPECT_EQ(reply.body.find("secret"), std::string::npos);
    EXPECT_EQ(told, std::vector<std::string>{"/home/secret/path"});
}

TEST(MemoryBudget, IsGivenBackWithTheLastHolder) {
    const MemoryBudget budget(100);
    auto lease = budget.reserve(60);
    const auto copy = lease;
    EXPECT_EQ(budget.left(), 40U);
    EXPECT_EQ(budget.reserve(41), nullptr);
    lease.reset();
    EXPECT_EQ(budget.left(), 40U);
}

TEST(MemoryBudget, LeasesMayOutliveIt) {
    std::shared_ptr<const void> lease;
    {
        const MemoryBudget budget(10);
        lease = budget.reserve(10);
    }
    EXPECT_NE(lease, nullptr);
}

}  // namespace
}  // namespace ridgetally::web

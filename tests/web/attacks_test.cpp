#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "web/served.h"

namespace ridgetally::served {
namespace {

using nlohmann::json;
using Clock = std::chrono::steady_clock;

class Attacks : public WithServer {
  protected:
    std::string status_of_raw(const std::string& bytes) { return server().raw(bytes).substr(0, 12); }
    std::string head(const std::string& first_line, const std::string& more = "") {
        return first_line + " HTTP/1.1\r\nHost: " + server().host() + "\r\n" + more + "\r\n";
    }
};

TEST_F(Attacks, OtherHostsAndOriginsAreTurnedAway) {
    EXPECT_EQ(server().get("/api/yarns", {{"Host", "rebound.example"}}).error(), "wrong-host");
    EXPECT_EQ(server().get("/api/yarns", {{"Origin", "http://evil.example"}}).error(), "wrong-origin");
    EXPECT_EQ(server().get("/api/yarns", {{"Sec-Fetch-Site", "cross-site"}}).error(), "wrong-origin");
    EXPECT_EQ(server().send("POST", "/api/yarns", "{}", {{"X-Ridgetally", "0"}}).error(), "no-header");
    EXPECT_EQ(server().send("POST", "/api/yarns", "name=x", {{"Content-Type", "text/plain"}}).error(),
              "wrong-type");
    EXPECT_EQ(status_of_raw(head("OPTIONS /api/yarns", "Origin: http://evil.example\r\n")), "HTTP/1.1 403");
}

TEST_F(Attacks, NoPathLeadsToTheFileSystem) {
    for (const char* path : {"/../../etc/passwd", "/page/../../etc/passwd", "/page/..%2f..%2fetc%2fpasswd",
                             "/%2e%2e/%2e%2e/etc/passwd", "/page/%00", "//etc/passwd", "/page//etc/passwd",
                             "/page/", "/page/index.html%00.css", "/etc/passwd"}) {
        const std::string answer = server().raw(head(std::string("GET ") + path));
        EXPECT_TRUE(answer.starts_with("HTTP/1.1 404") || answer.starts_with("HTTP/1.1 400"))
            << path << answer.substr(0, 40);
        EXPECT_EQ(answer.find("root:"), std::string::npos);
    }
    EXPECT_EQ(server()
                  .measure("swatch", sample_bytes("forgot-the-ruler.jpg"), {}, "../../etc/passwd")
                  .json()["refusal"]["photo"]["file"],
              "passwd");
}

TEST_F(Attacks, WhatIsNoHttpIsAnsweredAndDropped) {
    for (const std::string& bytes :
         {std::string("\r\n\r\n"), std::string("HELLO\r\n\r\n"), std::string(100, '\0') + "\r\n\r\n",
          "GET /" + std::string(9000, 'a') + " HTTP/1.1\r\n\r\n",
          head("GET /", std::string(20000, 'a') + ": b\r\n"), head("GET /" + std::string(2000, '(')),
          head("BREW /"), head("GET /?" + std::string(3000, '&'))}) {
        (void)server().raw(bytes);
        EXPECT_EQ(server().get("/health").status, 200);
    }
}

TEST_F(Attacks, TooMuchIsRefusedBeforeItIsSent) {
    const auto announced = [&](const std::string& bytes, const std::string& type) {
        return status_of_raw(head("POST /api/measure/swatch", "X-Ridgetally: 1\r\nContent-Type: " + type +
                                                                  "\r\nContent-Length: " + bytes + "\r\n"));
    };
    EXPECT_EQ(announced("50331649", "multipart/form-data; boundary=x"), "HTTP/1.1 413");
    EXPECT_EQ(announced("99999999999999999999", "multipart/form-data; boundary=x"), "HTTP/1.1 411");
    EXPECT_EQ(announced("10", "application/json"), "HTTP/1.1 415");
    const std::string endless = head("POST /api/measure/swatch",
                                     "X-Ridgetally: 1\r\nContent-Type: multipart/form-data; "
                                     "boundary=x\r\nTransfer-Encoding: chunked\r\n");
    EXPECT_EQ(status_of_raw(endless), "HTTP/1.1 411");
    const std::string packed = head("POST /api/hook",
                                    "X-Ridgetally: 1\r\nContent-Type: application/json\r\nContent-Encoding: "
                                    "gzip\r\nContent-Length: 10\r\n");
    EXPECT_EQ(status_of_raw(packed), "HTTP/1.1 415");
    EXPECT_EQ(server().post("/api/hook", {{"have", std::string(70000, '1')}}).error(), "too-large");
}

TEST_F(Attacks, AClientThatSendsTooMuchStillSeesWhy) {
    const Answer answer = server().measure("swatch", std::string(std::size_t{60} << 20U, 'x'), {});
    EXPECT_EQ(answer.error(), "too-large");
}

/// The head of a PNG of 10000 x 10000 pixels (ISO/IEC 15948, 5.6 and 11.2.2, checksum in the last four
/// bytes), and nothing behind it.
std::string huge_png() {
    constexpr std::string_view head(
        "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x27\x10\0\0\x27\x10\x08\x02\0\0\0\x35\x2c\xf5\x70\0\0\0\4IDAT",
        41);
    return std::string(head) + std::string(2000, '\0');
}

TEST_F(Attacks, AHugePictureIsRefusedByItsHeader) {
    const Answer answer = server().measure("swatch", huge_png(), {});
    EXPECT_EQ(answer.status, 413);
    EXPECT_EQ(answer.error(), "too-large");
}

TEST_F(Attacks, FormsThatAreNoneAreRefused) {
    const auto sent = [&](const std::string& body) {
        return server().send("POST", "/api/measure/swatch", body,
                             {{"Content-Type", "multipart/form-data; boundary=x"}});
    };
    EXPECT_EQ(sent("").status, 400);
    EXPECT_EQ(sent("--x--\r\n").status, 400);
    EXPECT_EQ(sent("nothing of the kind").status, 400);
    EXPECT_EQ(sent("--x\r\nContent-Disposition: form-data; name=\"file\"\r\n\r\nabc\r\n--x--\r\n").error(),
              "bad-form");
    EXPECT_EQ(sent("--x\r\nContent-Disposition: form-data; name=\"request\"\r\n\r\n{}\r\n--x--\r\n").error(),
              "bad-request");
}

TEST_F(Attacks, ErrorsSayNothingOfTheComputer) {
    for (const Answer& answer : {server().get("/nothing"), server().post("/api/hat", {{"gauge", "x"}}),
                                 server().measure("swatch", "x", {})}) {
        for (const char* trace : {"/tmp", "/home", "/root", "src/", ".cpp", "std::", "EXCEPTION"})
            EXPECT_EQ(answer.body.find(trace), std::string::npos) << answer.body;
        EXPECT_EQ(answer.header("Server"), "");
        EXPECT_EQ(answer.header("EXCEPTION_WHAT"), "");
    }
}

TEST_F(Attacks, SlowHeadsAreDroppedAfterTenSecondsHoweverOftenTheySendAByte) {
    const int socket = server().connected();
    const auto before = Clock::now();
    const std::string slow = "GET /health HTTP/1.1\r\nHost: " + server().host() + "\r\nX: ";
    (void)!::send(socket, slow.data(), slow.size(), MSG_NOSIGNAL);
    while (Clock::now() - before < std::chrono::seconds(20)) {
        if (::send(socket, "a", 1, MSG_NOSIGNAL) != 1) break;
        std::this_thread::sleep_for(std::chrono::milliseconds(250));
        char c = '\0';
        if (::recv(socket, &c, 1, MSG_DONTWAIT | MSG_PEEK) >= 0) break;
    }
    ::close(socket);
    const auto took = Clock::now() - before;
    EXPECT_GT(took, std::chrono::seconds(8));
    EXPECT_LT(took, std::chrono::seconds(15));
}

TEST_F(Attacks, ManyHangingConnectionsDoNotKeepOthersOut) {
    std::vector<int> hanging;
    for (int i = 0; i < 100; ++i) hanging.push_back(server().connected());
    const auto before = Clock::now();
    EXPECT_EQ(server().get("/health").status, 200);
    EXPECT_LT(Clock::now() - before, std::chrono::seconds(1));
    for (const int socket : hanging) ::close(socket);
}

TEST_F(Attacks, PhotosLeaveNothingBehind) {
    const auto files_of = [](const std::filesystem::path& folder) {
        std::set<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(folder))
            names.insert(entry.path().filename());
        return names;
    };
    const auto open_files = [&] {
        std::set<std::string> open;
        const std::string folder = "/proc/" + std::to_string(server().process()) + "/fd";
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            std::error_code gone;
            const auto target = std::filesystem::read_symlink(entry.path(), gone).string();
            if (!gone && target.starts_with("/")) open.insert(target);
        }
        return open;
    };
    const auto open_before = open_files();
    ASSERT_EQ(server().measure("swatch", sample_bytes("brimful-moss.jpg"), {{"stitch", "sc"}}).status, 200);
    EXPECT_EQ(files_of(std::filesystem::path(path("x")).parent_path()), std::set<std::string>());
    EXPECT_EQ(open_files(), open_before);
}

class TimeLimit : public WithServer {
    [[nodiscard]] std::vector<std::string> arguments() const override {
        return {"--jobs", "1", "--time-limit", "0.01"};
    }
};

TEST_F(TimeLimit, WhatTakesTooLongIsAnsweredAndTheServerGoesOn) {
    const Answer answer = server().measure("swatch", sample_bytes("brimful-moss.jpg"), {{"stitch", "sc"}});
    EXPECT_EQ(answer.status, 504);
    EXPECT_EQ(answer.error(), "took-too-long");
    EXPECT_EQ(server().get("/health").status, 200);
}

}  // namespace
}  // namespace ridgetally::served

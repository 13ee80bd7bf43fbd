#include <csignal>
#include <thread>

#include "web/served.h"

namespace ridgetally::served {
namespace {

TEST(Start, ThePageIsThereForThisComputerAtTheAddressPrinted) {
    const Server server;
    EXPECT_EQ(server.first_line(), "http://127.0.0.1:" + std::to_string(server.port()) + "/");
    EXPECT_EQ(server.get("/").type, "text/html");
    EXPECT_EQ(server.get("/health").json(), nlohmann::json({{"status", "ok"}}));
    EXPECT_EQ(server.get("/openapi.json").json(), description());
}

TEST(Start, EndsWellAtSigtermAndSigint) {
    for (const int signal : {SIGTERM, SIGINT}) {
        Server server;
        EXPECT_EQ(server.get("/health").status, 200);
        EXPECT_EQ(server.end(signal), 0);
    }
}

TEST(Start, EndsWellWhilePhotosWaitAndConnectionsHang) {
    Server server({"--jobs", "1"});
    const std::string photo = sample_bytes("brimful-moss.jpg");
    std::vector<std::thread> clients;
    std::atomic<int> answered = 0;
    for (int i = 0; i < 4; ++i) {
        clients.emplace_back([&] {
            const int status = server.measure("swatch", photo, {{"stitch", "sc"}}).status;
            EXPECT_TRUE(status == 200 || status == 503) << status;
            ++answered;
        });
    }
    const int hanging = server.connected();
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    const auto before = std::chrono::steady_clock::now();
    EXPECT_EQ(server.end(SIGTERM), 0);
    EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(10));
    for (auto& client : clients) client.join();
    ::close(hanging);
    EXPECT_EQ(answered, 4);
}

TEST(Start, APortThatIsTakenIsTold) {
    const Server server;
    const auto second = blackbox::run({"serve", "--port", std::to_string(server.port())});
    EXPECT_EQ(second.status, 74);
    EXPECT_EQ(second.out, "");
    EXPECT_NE(second.err.find("--port"), std::string::npos);
}

TEST(Start, WrongOptionsAreWrongUse) {
    for (const std::vector<std::string>& wrong : {std::vector<std::string>{"--port", "65536"},
                                                  {"--port", "-1"},
                                                  {"--port", "1.5"},
                                                  {"--port", "x"},
                                                  {"--jobs", "0"},
                                                  {"--time-limit", "0"},
                                                  {"--time-limit", "x"},
                                                  {"--wan"}}) {
        auto arguments = wrong;
        arguments.insert(arguments.begin(), "serve");
        EXPECT_EQ(blackbox::run(arguments).status, 64) << testing::PrintToString(wrong);
    }
}

TEST(Start, EveryAnswerForbidsOtherSitesEverything) {
    const Server server;
    for (const char* path : {"/", "/health", "/nothing", "/api/yarns/by-name?name=x"}) {
        const Answer answer = server.get(path);
        EXPECT_EQ(answer.header("Content-Security-Policy"),
                  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
                  "connect-src "
                  "'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'");
        EXPECT_EQ(answer.header("X-Content-Type-Options"), "nosniff");
        EXPECT_EQ(answer.header("Referrer-Policy"), "no-referrer");
        EXPECT_EQ(answer.header("Cross-Origin-Opener-Policy"), "same-origin");
        EXPECT_EQ(answer.header("Cross-Origin-Resource-Policy"), "same-origin");
        EXPECT_EQ(answer.header("Access-Control-Allow-Origin"), "");
    }
    EXPECT_EQ(server.get("/api/choices").header("Cache-Control"), "no-store");
}

class Lan : public testing::Test {
  protected:
    void SetUp() override {
        try {
            server.emplace(std::vector<std::string>{"--lan"});
        } catch (const std::runtime_error&) {
            GTEST_SKIP() << "this computer is in no network";
        }
    }
    [[nodiscard]] std::string asked(const std::string& path, const std::string& more = "") const {
        return server->raw("GET " + path + " HTTP/1.1\r\nHost: " + server->host() + "\r\n" + more + "\r\n");
    }
    std::optional<Server> server;
};

TEST_F(Lan, PrintsAddressAndCode) {
    EXPECT_EQ(server->key().size(), 27U);
    ASSERT_EQ(server->get("/health").status, 200);
    const std::string rest = server->rest_of_output();
    EXPECT_NE(rest.find("\u2588"), std::string::npos);
}

TEST_F(Lan, NothingIsServedWithoutTheSecret) {
    for (const char* path :
         {"/", "/health", "/openapi.json", "/api/yarns", "/api/choices", "/nothing", "/?key=wrong"})
        EXPECT_TRUE(asked(path).starts_with("HTTP/1.1 401 ")) << path;
    const std::string post =
        "POST /api/hook HTTP/1.1\r\nHost: " + server->host() +
        "\r\nX-Ridgetally: 1\r\nContent-Type: application/json\r\nContent-Length: 2\r\n\r\n{}";
    EXPECT_TRUE(server->raw(post).starts_with("HTTP/1.1 401 "));
}

TEST_F(Lan, TheCodeGivesACookieThatLetsInAndNothingElseDoes) {
    const std::string answer = asked("/?key=" + server->key());
    EXPECT_TRUE(answer.starts_with("HTTP/1.1 303 ")) << answer;
    EXPECT_NE(answer.find("Location: /\r\n"), std::string::npos);
    const std::string cookie = "ridgetally-" + std::to_string(server->port()) + "=" + server->key();
    EXPECT_NE(answer.find("Set-Cookie: " + cookie + "; Path=/; HttpOnly; SameSite=Strict\r\n"),
              std::string::npos);
    EXPECT_TRUE(asked("/api/yarns", "Cookie: " + cookie + "\r\n").starts_with("HTTP/1.1 200 "));
    EXPECT_TRUE(asked("/api/yarns", "Cookie: " + cookie + "x\r\n").starts_with("HTTP/1.1 401 "));
}

TEST_F(Lan, EachStartHasASecretOfItsOwn) {
    const Server other({"--lan"});
    EXPECT_NE(other.key(), server->key());
}

}  // namespace
}  // namespace ridgetally::served

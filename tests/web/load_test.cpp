#include <atomic>
#include <fstream>
#include <thread>

#include "web/served.h"

namespace ridgetally::served {
namespace {

using Clock = std::chrono::steady_clock;

/// Largest memory the process has held, kB (proc(5), VmHWM).
long peak_memory_kb(pid_t process) {
    std::ifstream status("/proc/" + std::to_string(process) + "/status");
    for (std::string word; status >> word;) {
        long kb = 0;
        if (word == "VmHWM:" && status >> kb) return kb;
    }
    return 0;
}

class Load : public WithServer {};

TEST_F(Load, FiftyClientsAtOnceLoseNothingAndHealthAnswersWithinASecond) {
    const std::string photo = sample_bytes("brimful-moss.jpg");
    const nlohmann::json request = {{"stitch", "sc"}};
    const std::string expected = server().measure("swatch", photo, request).json()["report"].dump();
    std::atomic<int> measured = 0;
    std::atomic<int> running = 50;
    std::vector<std::thread> clients;
    const auto begun = Clock::now();
    for (int i = 0; i < 50; ++i) {
        clients.emplace_back([&] {
            const Answer answer = server().measure("swatch", photo, request);
            if (answer.status == 200 && answer.json()["report"].dump() == expected) ++measured;
            --running;
        });
    }
    Clock::duration slowest{};
    int asked = 0;
    while (running > 0) {
        const auto before = Clock::now();
        EXPECT_EQ(server().get("/health").status, 200);
        slowest = std::max(slowest, Clock::now() - before);
        ++asked;
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    for (auto& client : clients) client.join();
    EXPECT_EQ(measured, 50);
    EXPECT_GT(asked, 5);
    EXPECT_LT(slowest, std::chrono::seconds(1));
    const auto ms = [](Clock::duration d) {
        return std::chrono::duration_cast<std::chrono::milliseconds>(d).count();
    };
    RecordProperty("all_ms", static_cast<int>(ms(Clock::now() - begun)));
    RecordProperty("slowest_health_ms", static_cast<int>(ms(slowest)));
    RecordProperty("peak_memory_kb", static_cast<int>(peak_memory_kb(server().process())));
    std::printf("50 photos in %ld ms, slowest health answer %ld ms, peak memory %ld MB\n",
                static_cast<long>(ms(Clock::now() - begun)), static_cast<long>(ms(slowest)),
                peak_memory_kb(server().process()) / 1024);
}

}  // namespace
}  // namespace ridgetally::served

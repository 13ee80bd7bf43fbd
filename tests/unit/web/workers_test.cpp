#include "web/workers.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>
#include <thread>
#include <vector>

namespace ridgetally::web {
namespace {

using namespace std::chrono_literals;

const TellFault nobody = [](const std::string&) {};

Reply done() { return {200, "", "done", {}}; }

/// A work that goes on until it is let go.
class Held {
  public:
    [[nodiscard]] std::function<Reply()> work() {
        return [this] {
            begun_.set_value();
            until_.wait();
            return done();
        };
    }
    void wait_until_begun() { begun_.get_future().wait(); }
    void let_go() { go_.set_value(); }

  private:
    std::promise<void> begun_;
    std::promise<void> go_;
    std::shared_future<void> until_ = go_.get_future().share();
};

TEST(Workers, GivesTheAnswer) {
    Workers workers({}, nobody);
    EXPECT_EQ(workers.run(done).body, "done");
}

TEST(Workers, AFaultIsToldAndAnswered500) {
    std::string told;
    Workers workers({}, [&](const std::string& what) { told = what; });
    EXPECT_EQ(workers.run([]() -> Reply { throw std::runtime_error("no memory"); }).status, 500);
    EXPECT_EQ(told, "no memory");
    EXPECT_EQ(workers.run(done).status, 200);
}

TEST(Workers, MoreThanMayWaitAreSentAway) {
    Held held;
    Workers workers({.jobs = 1, .waiting = 2}, nobody);
    auto busy = std::async(std::launch::async, [&] { return workers.run(held.work()).status; });
    held.wait_until_begun();
    std::atomic<int> turned_away = 0;
    std::atomic<int> served = 0;
    std::vector<std::thread> clients;
    for (int i = 0; i < 5; ++i) {
        clients.emplace_back([&] {
            const int status = workers.run(done).status;
            ++(status == 503 ? turned_away : served);
        });
    }
    while (turned_away < 3) std::this_thread::yield();
    held.let_go();
    for (auto& client : clients) client.join();
    EXPECT_EQ(turned_away, 3);
    EXPECT_EQ(served, 2);
    EXPECT_EQ(busy.get(), 200);
}

TEST(Workers, ATooLongWorkIsLeftAloneAndKeepsItsThreadBusy) {
    Held held;
    Workers workers({.jobs = 1, .waiting = 8, .turn = 50ms, .work = 50ms}, nobody);
    EXPECT_EQ(workers.run(held.work()).status, 504);
    EXPECT_EQ(workers.run(done).status, 503);  // no turn in time: the first still runs
    held.let_go();
    Reply later = workers.run(done);
    for (int i = 0; i < 100 && later.status == 503; ++i) later = workers.run(done);
    EXPECT_EQ(later.status, 200);
}

TEST(Workers, WhatAWorkHoldsIsGivenUpWithIt) {
    Workers workers({}, nobody);
    auto photo = std::make_shared<int>(1);
    const std::weak_ptr<int> watched = photo;
    EXPECT_EQ(workers.run([held = std::move(photo)] { return done(); }).status, 200);
    EXPECT_TRUE(watched.expired());
}

TEST(Workers, StoppingAnswersWhoeverWaits) {
    Held held;
    Workers workers({.jobs = 1}, nobody);
    auto busy = std::async(std::launch::async, [&] { return workers.run(held.work()).status; });
    held.wait_until_begun();
    workers.stop();
    EXPECT_EQ(busy.get(), 503);
    EXPECT_EQ(workers.run(done).status, 503);
    held.let_go();
}

}  // namespace
}  // namespace ridgetally::web

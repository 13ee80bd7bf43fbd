#pragma once

#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/types.h>

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/run_program.h"
#include "web/description.h"

namespace ridgetally::served {

using Headers = std::multimap<std::string, std::string>;

/// `ridgetally serve --port 0 ...`, running.
class Server {
  public:
    explicit Server(const std::vector<std::string>& arguments = {});
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server();

    [[nodiscard]] const std::string& first_line() const { return first_line_; }
    [[nodiscard]] std::string host() const { return address_ + ":" + std::to_string(port_); }
    [[nodiscard]] int port() const { return port_; }
    [[nodiscard]] const std::string& key() const { return key_; }
    [[nodiscard]] pid_t process() const { return process_; }
    /// What it printed after the first line so far; with the end of the program, all of it.
    [[nodiscard]] std::string rest_of_output();

    /// Sends a signal and gives the exit status; -1 where a signal ended it.
    int end(int signal);

    /// Asks and checks the answer against the description. Paths may have a query. The header that changes
    /// need, and the cookie with --lan, come by themselves.
    [[nodiscard]] Answer get(const std::string& path, const Headers& headers = {}) const;
    [[nodiscard]] Answer send(const std::string& method, const std::string& path, const std::string& body,
                              const Headers& headers = {}) const;
    [[nodiscard]] Answer post(const std::string& path, const nlohmann::json& body) const;
    /// A photo with a request.
    [[nodiscard]] Answer measure(const std::string& kind, const std::string& photo,
                                 const nlohmann::json& request,
                                 const std::string& file_name = "photo.jpg") const;
    /// Photos of one piece, each with its file name.
    [[nodiscard]] Answer measure_together(
        const std::string& kind, const std::vector<std::pair<std::string, std::string>>& named_photos,
        const nlohmann::json& request) const;
    /// Bytes as they stand, and everything that comes back until the connection is closed.
    [[nodiscard]] std::string raw(const std::string& bytes) const;
    /// A connection of one's own.
    [[nodiscard]] int connected() const;

  private:
    [[nodiscard]] Answer ask(httplib::Request request) const;

    pid_t process_ = -1;
    int output_ = -1;
    std::string first_line_;
    std::string address_;
    int port_ = 0;
    std::string key_;
};

/// A test with a folder and a server whose record lies there.
class WithServer : public blackbox::WithFolder {
  protected:
    void SetUp() override;
    void TearDown() override;
    [[nodiscard]] virtual std::vector<std::string> arguments() const { return {}; }
    Server& server() { return *server_; }

  private:
    std::optional<Server> server_;
};

/// The bytes of a photo of samples/.
[[nodiscard]] std::string sample_bytes(const std::string& name);

}  // namespace ridgetally::served

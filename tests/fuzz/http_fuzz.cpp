#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <thread>

#include "fuzz_target.h"
#include "web/router.h"

extern "C" const ridgetally::web::WebLibrary ridgetally_web_library;

namespace {

using namespace ridgetally;
using namespace ridgetally::web;

Reply counted(const Request& request) {
    std::size_t bytes = request.body.size();
    for (const auto& [name, part] : request.parts) bytes += name.size() + part.content.size();
    return {200, "text/plain", std::to_string(bytes), {}};
}

/// The server as the program runs it, without a secret, on a port of this computer. Lives until the process
/// ends.
class Server {
  public:
    Server()
        : router_({{"GET", "/", Takes::nothing, counted},
                   {"POST", "/json", Takes::json, counted},
                   {"POST", "/form", Takes::form, counted}},
                  Door{{"here"}, std::nullopt, "ridgetally"},
                  BodyLimits{.json_bytes = 4096, .form_bytes = 65536, .all_bytes = 131072},
                  [](const std::string&) {}),
          transport_(ridgetally_web_library.make_transport(ConnectionLimits{})),
          port_(transport_->bind("127.0.0.1", 0)) {
        fuzz::require(port_.has_value());
        thread_ = std::thread([this] { transport_->serve(router_); });
    }
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server() {
        transport_->stop();
        thread_.join();
    }
    [[nodiscard]] int port() const { return *port_; }

  private:
    Router router_;
    std::unique_ptr<Transport> transport_;
    std::optional<int> port_;
    std::thread thread_;
};

/// A connection; asked for anew where the fuzzer's own clock, which ticks every half of its time limit, cut
/// in.
int connected(int port) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    for (;;) {
        const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
        if (::connect(socket, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0)
            return socket;
        fuzz::require(errno == EINTR);
        ::close(socket);
    }
}

}  // namespace

/// Bytes that a client sends, up to the end of its connection. Whatever they are, the server goes on and what
/// it answers is HTTP.
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const Server server;
    const int socket = connected(server.port());
    (void)::send(socket, data, size, MSG_NOSIGNAL);
    ::shutdown(socket, SHUT_WR);
    std::array<char, 4096> answer{};
    const ssize_t got = ::recv(socket, answer.data(), answer.size(), 0);
    if (got > 0)
        fuzz::require(
            std::string_view(answer.data(), static_cast<std::size_t>(got)).starts_with("HTTP/1.1 "));
    while (::recv(socket, answer.data(), answer.size(), 0) > 0) {
    }
    ::close(socket);
    return 0;
}

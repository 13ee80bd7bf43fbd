#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "web/http.h"

namespace ridgetally::web {

/// What the body of a request is.
enum class Takes { nothing, json, form };

/// What a head came to, before the body is read.
struct Admission {
    std::optional<Reply> reply;  ///< the answer, where the body is of no use
    std::size_t body_bytes = 0;  ///< to be read
    Takes takes = Takes::nothing;
    std::shared_ptr<const void> lease;  ///< for the memory of the body
};

/// What stands behind a transport: says what to do with a request. Used by several threads.
class Gate {
  public:
    virtual ~Gate() = default;
    /// Judges a head before any body is read.
    [[nodiscard]] virtual Admission admit(const Request& head) const = 0;
    /// Answers an admitted request.
    [[nodiscard]] virtual Reply answer(Request request) const = 0;
};

/// What a connection may take.
struct ConnectionLimits {
    std::size_t connections = 128;  ///< served at the same time; further ones wait
    std::size_t head_bytes = std::size_t{16} * 1024;
    std::chrono::milliseconds head{std::chrono::seconds(10)};    ///< for the whole head
    std::chrono::milliseconds body{std::chrono::minutes(2)};     ///< for the whole body: 10 MB at 0.7 Mbit/s
    std::chrono::milliseconds answer{std::chrono::seconds(30)};  ///< to take the whole answer
};

/// Reads requests from the network and writes answers: HTTP/1.1, one request a connection.
class Transport {
  public:
    virtual ~Transport() = default;
    /// Takes the address (an IPv4 address) and gives the port; none where it cannot be had. 0: any free port.
    [[nodiscard]] virtual std::optional<int> bind(const std::string& address, int port) = 0;
    /// Serves until stop is called and every connection is done with.
    virtual void serve(const Gate& gate) = 0;
    /// From any thread. Connections that wait for the client are dropped.
    virtual void stop() = 0;
};

/// What is loaded when the server is asked for. The libraries behind it, cpp-httplib with the TLS and
/// compression that it brings along (neither is used) and libqrencode, would cost every other command 3 ms at
/// start.
struct WebLibrary {
    std::unique_ptr<Transport> (*make_transport)(const ConnectionLimits& limits);
    std::string (*qr_code)(const std::string& text);  ///< see qr_code.h
};

/// Loads libridgetally_web.so, which lies beside the program or where it was installed; null where it does
/// not. Stays loaded.
[[nodiscard]] const WebLibrary* load_web_library();

}  // namespace ridgetally::web

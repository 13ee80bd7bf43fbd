#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <utility>

#include "core/lower_case.h"
#include "web/form_parts.h"
#include "web/qr_code.h"
#include "web/transport.h"
#include "web/transport/connection_threads.h"
#include "web/transport/deadline_stream.h"

/// The one file that uses cpp-httplib's server, in a library that the program loads (see transport.h).
namespace ridgetally::web {
namespace {

/// More than any path that is served; longer ones never reach the library's matching of patterns.
constexpr std::size_t longest_path = 256;
/// How long a client that sends on after it was answered is listened to.
constexpr std::chrono::seconds linger_time{3};

Request head_of(const httplib::Request& from) {
    Request head;
    head.method = from.method;
    head.path = from.path;
    for (const auto& [name, value] : from.params) head.query.emplace(name, value);
    for (const auto& [name, value] : from.headers) head.headers.emplace(lower_case(name), value);
    return head;
}

void fill(httplib::Response& to, const Reply& reply) {
    to.status = reply.status;
    if (!reply.content_type.empty()) to.set_content(reply.body, reply.content_type);
    for (const auto& [name, value] : reply.headers) to.set_header(name, value);
    for (const auto& [name, value] : protective_headers()) to.set_header(name, value);
    if (std::none_of(reply.headers.begin(), reply.headers.end(),
                     [](const Header& header) { return header.first == "Cache-Control"; }))
        to.set_header("Cache-Control", "no-store");
}

/// One request on one connection.
class Conversation : private httplib::Server {
  public:
    Conversation(socket_t socket, const std::atomic<bool>& stopped, const Gate& gate,
                 const ConnectionLimits& limits)
        : stream_(socket, stopped), gate_(gate), limits_(limits) {
        set_pre_routing_handler(
            [this](const httplib::Request&, httplib::Response& to) { return before_body(to); });
        set_expect_100_continue_handler(
            [this](const httplib::Request&, httplib::Response& to) { return before_promise(to); });
        set_error_handler([](const httplib::Request&, httplib::Response& to) { explain(to); });
        const auto with_body = [this](const httplib::Request& from, httplib::Response& to,
                                      const httplib::ContentReader& body) {
            read_and_answer(from, to, body);
        };
        Post(".*", with_body);
        Patch(".*", with_body);
        Delete(".*", with_body);
        Put(".*", with_body);
    }

    void hold() {
        stream_.allow(limits_.head_bytes, limits_.head);
        bool closed = false;
        (void)process_request(stream_, true, closed, [this](httplib::Request& from) { judge(from); });
        stream_.linger(linger_time);
    }

  private:
    /// Called when the head is read and before anything else.
    void judge(httplib::Request& from) {
        from.ranges.clear();
        request_ = head_of(from);
        admission_ =
            request_.path.size() > longest_path
                ? Admission{error_reply(404, "no-such-page", "there is nothing at this address"), 0, {}, {}}
                : gate_.admit(request_);
        request_.lease = admission_.lease;
        stream_.allow(admission_.body_bytes, limits_.body);
    }

    int before_promise(httplib::Response& to) {
        constexpr int go_on = 100;
        if (!admission_.reply) return go_on;
        send(to, *admission_.reply);
        return to.status;
    }

    HandlerResponse before_body(httplib::Response& to) {
        if (!admission_.reply && admission_.takes != Takes::nothing) return HandlerResponse::Unhandled;
        send(to, admission_.reply ? *admission_.reply : gate_.answer(std::move(request_)));
        return HandlerResponse::Handled;
    }

    void read_and_answer(const httplib::Request& from, httplib::Response& to,
                         const httplib::ContentReader& body) {
        FormParts parts(admission_.body_bytes);
        const bool read = from.is_multipart_form_data()
                              ? body(
                                    [&](const httplib::MultipartFormData& part) {
                                        return parts.begin(part.name, part.filename);
                                    },
                                    [&](const char* bytes, size_t size) {
                                        return parts.add({bytes, size});
                                    })
                              : body([&](const char* bytes, size_t size) {
                                    request_.body.append(bytes, size);
                                    return true;
                                });
        if (!read)
            return send(to, parts.fault().value_or(
                                error_reply(400, "bad-body", "the body did not come as announced")));
        request_.parts = parts.take();
        // What this function holds is given up here: the answer may be long in coming.
        admission_.lease = nullptr;
        send(to, gate_.answer(std::exchange(request_, {})));
    }

    void send(httplib::Response& to, const Reply& reply) {
        fill(to, reply);
        stream_.allow(0, limits_.answer);
    }

    /// What the library itself refuses: heads that are no HTTP, too long, and the like.
    static void explain(httplib::Response& to) {
        if (to.body.empty()) fill(to, error_reply(to.status, "bad-request", "the request could not be read"));
    }

    DeadlineStream stream_;
    const Gate& gate_;
    const ConnectionLimits& limits_;
    Request request_;
    Admission admission_;
};

class HttpTransport : public Transport, private httplib::Server {
  public:
    explicit HttpTransport(const ConnectionLimits& limits) : limits_(limits) {
        new_task_queue = [most = limits.connections] { return new ConnectionThreads(most); };
        // Two servers on one port would share its requests between them.
        set_socket_options([](socket_t socket) {
            const int yes = 1;
            ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
        });
    }

    std::optional<int> bind(const std::string& address, int port) override {
        set_address_family(AF_INET);
        const int bound = port == 0 ? bind_to_any_port(address) : bind_to_port(address, port) ? port : -1;
        if (bound <= 0) return std::nullopt;
        // The library lets 5 connections wait to be accepted; further ones would have to try again after a
        // second.
        ::listen(svr_sock_, SOMAXCONN);
        return bound;
    }

    void serve(const Gate& gate) override {
        gate_ = &gate;
        (void)listen_after_bind();
    }

    void stop() override {
        stopped_ = true;
        httplib::Server::stop();
    }

  private:
    bool process_and_close_socket(socket_t socket) override {
        Conversation(socket, stopped_, *gate_, limits_).hold();
        ::close(socket);
        return true;
    }

    ConnectionLimits limits_;
    const Gate* gate_ = nullptr;
    std::atomic<bool> stopped_ = false;
};

std::unique_ptr<Transport> make_http_transport(const ConnectionLimits& limits) {
    return std::make_unique<HttpTransport>(limits);
}

}  // namespace
}  // namespace ridgetally::web

/// What load_web_library looks for.
extern "C" const ridgetally::web::WebLibrary ridgetally_web_library = {ridgetally::web::make_http_transport,
                                                                       ridgetally::web::qr_code};

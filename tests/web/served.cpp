#include "web/served.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <regex>
#include <stdexcept>

namespace ridgetally::served {
namespace {

[[noreturn]] void become_server(const std::vector<std::string>& arguments, int output) {
    std::vector<std::string> words = {RIDGETALLY_BINARY, "serve", "--port", "0"};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> pointers;
    for (auto& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    ::dup2(output, STDOUT_FILENO);
    ::execv(pointers.front(), pointers.data());
    ::_exit(127);
}

std::string line_from(int descriptor) {
    std::string line;
    char c = '\0';
    while (::read(descriptor, &c, 1) == 1 && c != '\n') line += c;
    return line;
}

std::string media_type(const std::string& type) { return type.substr(0, type.find(';')); }

constexpr const char* boundary = "boundary-of-the-test";

/// File name and bytes of each photo.
using NamedPhotos = std::vector<std::pair<std::string, std::string>>;

std::string form(const NamedPhotos& photos, const std::string& request) {
    const std::string line = std::string("--") + boundary;
    std::string text;
    for (const auto& [file_name, bytes] : photos)
        text += line + "\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"" + file_name +
                "\"\r\nContent-Type: image/jpeg\r\n\r\n" + bytes + "\r\n";
    return text + line +
           "\r\nContent-Disposition: form-data; name=\"request\"\r\nContent-Type: application/json\r\n\r\n" +
           request + "\r\n" + line + "--\r\n";
}

}  // namespace

Server::Server(const std::vector<std::string>& arguments) {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
    process_ = ::fork();
    if (process_ < 0) throw std::runtime_error("no process could be started");
    if (process_ == 0) become_server(arguments, ends[1]);
    ::close(ends[1]);
    output_ = ends[0];
    first_line_ = line_from(output_);
    std::smatch parts;
    const std::regex address(R"(http://([0-9.]+):([0-9]+)/(?:\?key=([A-Za-z0-9_-]+))?)");
    if (!std::regex_match(first_line_, parts, address))
        throw std::runtime_error("the first line is no address: " + first_line_);
    address_ = parts[1];
    port_ = std::stoi(parts[2]);
    key_ = parts[3];
}

Server::~Server() {
    if (process_ > 0) end(SIGKILL);
    ::close(output_);
}

std::string Server::rest_of_output() {
    std::string rest;
    std::array<char, 4096> part{};
    if (process_ > 0) ::fcntl(output_, F_SETFL, O_NONBLOCK);
    for (ssize_t n = 0; (n = ::read(output_, part.data(), part.size())) > 0;)
        rest.append(part.data(), static_cast<std::size_t>(n));
    return rest;
}

int Server::end(int signal) {
    ::kill(process_, signal);
    int status = 0;
    ::waitpid(process_, &status, 0);
    process_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

Answer Server::ask(httplib::Request request) const {
    httplib::Client client(address_, port_);
    client.set_read_timeout(std::chrono::minutes(3));
    const std::string path = request.path;
    const std::string method = request.method;
    if (!key_.empty() && !request.has_header("Cookie"))
        request.set_header("Cookie", "ridgetally-" + std::to_string(port_) + "=" + key_);
    const auto result = client.send(request);
    if (!result) {
        ADD_FAILURE() << method << " " << path << ": " << httplib::to_string(result.error());
        return {};
    }
    Answer answer{result->status, media_type(result->get_header_value("Content-Type")), result->body, {}};
    for (const auto& [name, value] : result->headers) answer.headers.emplace(name, value);
    expect_described(method, path.substr(0, path.find('?')), answer);
    return answer;
}

Answer Server::get(const std::string& path, const Headers& headers) const {
    httplib::Request request;
    request.method = "GET";
    request.path = path;
    for (const auto& [name, value] : headers) request.set_header(name, value);
    return ask(request);
}

Answer Server::send(const std::string& method, const std::string& path, const std::string& body,
                    const Headers& headers) const {
    httplib::Request request;
    request.method = method;
    request.path = path;
    request.body = body;
    for (const auto& [name, value] : headers) request.set_header(name, value);
    if (!request.has_header("X-Ridgetally")) request.set_header("X-Ridgetally", "1");
    if (!request.has_header("Content-Type") && !body.empty())
        request.set_header("Content-Type", "application/json");
    return ask(request);
}

Answer Server::post(const std::string& path, const nlohmann::json& body) const {
    return send("POST", path, body.dump());
}

Answer Server::measure(const std::string& kind, const std::string& photo, const nlohmann::json& request,
                       const std::string& file_name) const {
    return measure_together(kind, {{file_name, photo}}, request);
}

Answer Server::measure_together(const std::string& kind, const NamedPhotos& named_photos,
                                const nlohmann::json& request) const {
    return send("POST", "/api/measure/" + kind, form(named_photos, request.is_null() ? "{}" : request.dump()),
                {{"Content-Type", std::string("multipart/form-data; boundary=") + boundary}});
}

int Server::connected() const {
    const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port_));
    ::inet_pton(AF_INET, address_.c_str(), &to.sin_addr);
    EXPECT_EQ(::connect(socket, reinterpret_cast<const sockaddr*>(&to), sizeof to), 0);
    return socket;
}

std::string Server::raw(const std::string& bytes) const {
    const int socket = connected();
    (void)!::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    std::string answer;
    std::array<char, 4096> part{};
    for (ssize_t n = 0; (n = ::recv(socket, part.data(), part.size(), 0)) > 0;)
        answer.append(part.data(), static_cast<std::size_t>(n));
    ::close(socket);
    return answer;
}

void WithServer::SetUp() {
    WithFolder::SetUp();
    auto told = arguments();
    told.insert(told.end(), {"--record", path("record.db")});
    server_.emplace(told);
}

void WithServer::TearDown() {
    server_.reset();
    WithFolder::TearDown();
}

std::string sample_bytes(const std::string& name) { return blackbox::bytes_of(blackbox::sample(name)); }

}  // namespace ridgetally::served

#include "web/secret.h"

#include <sys/random.h>

#include <array>
#include <cerrno>
#include <cstddef>
#include <system_error>

namespace ridgetally::web {
namespace {

std::string base64url(const unsigned char* bytes, std::size_t size) {
    constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    std::string text;
    unsigned held = 0;
    int bits = 0;
    for (std::size_t i = 0; i < size; ++i) {
        held = (held << 8U) | bytes[i];
        bits += 8;
        while (bits >= 6) {
            bits -= 6;
            text += letters[(held >> static_cast<unsigned>(bits)) & 63U];
        }
    }
    if (bits > 0) text += letters[(held << static_cast<unsigned>(6 - bits)) & 63U];
    return text;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

}  // namespace

std::string new_secret() {
    std::array<unsigned char, 20> bytes{};
    std::size_t got = 0;
    while (got < bytes.size()) {
        const ssize_t n = ::getrandom(bytes.data() + got, bytes.size() - got, 0);
        if (n < 0 && errno == EINTR) continue;
        if (n <= 0) throw std::system_error(errno, std::generic_category(), "getrandom");
        got += static_cast<std::size_t>(n);
    }
    return base64url(bytes.data(), bytes.size());
}

bool same_secret(std::string_view told, std::string_view secret) {
    // An empty secret would be matched by nothing at all.
    if (secret.empty()) return false;
    volatile unsigned char different = told.size() == secret.size() ? 0 : 1;
    for (std::size_t i = 0; i < told.size(); ++i) {
        const auto a = static_cast<unsigned char>(told[i]);
        const auto b = static_cast<unsigned char>(secret[i % secret.size()]);
        different = static_cast<unsigned char>(different | (a ^ b));
    }
    return different == 0;
}

std::optional<std::string> cookie_value(std::string_view header, std::string_view name) {
    while (!header.empty()) {
        const auto end = std::min(header.find(';'), header.size());
        const std::string_view pair = trimmed(header.substr(0, end));
        const auto equals = pair.find('=');
        if (equals != std::string_view::npos && pair.substr(0, equals) == name)
            return std::string(pair.substr(equals + 1));
        header.remove_prefix(std::min(end + 1, header.size()));
    }
    return std::nullopt;
}

}  // namespace ridgetally::web

#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ridgetally::web {

/// 160 bits from the system's random source (getrandom(2)) as 27 letters of base64url (RFC 4648, section 5).
/// Throws std::system_error where the system gives none.
[[nodiscard]] std::string new_secret();

/// Whether two texts are equal, in a time that depends on the length of `told` alone and not on how much of
/// it is right.
[[nodiscard]] bool same_secret(std::string_view told, std::string_view secret);

/// The value of a cookie in a Cookie header (RFC 6265, section 4.2.1); the first of that name.
[[nodiscard]] std::optional<std::string> cookie_value(std::string_view header, std::string_view name);

}  // namespace ridgetally::web

#pragma once

#include <string>
#include <vector>

namespace ridgetally::web {

/// IPv4 addresses of this computer in its networks, those of private networks (RFC 1918) first; without
/// loopback.
[[nodiscard]] std::vector<std::string> network_addresses();

/// Whether the address is one of 10/8, 172.16/12, 192.168/16.
[[nodiscard]] bool is_private(const std::string& address);

}  // namespace ridgetally::web

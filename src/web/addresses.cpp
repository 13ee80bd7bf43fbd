#include "web/addresses.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <memory>

namespace ridgetally::web {

bool is_private(const std::string& address) {
    in_addr parsed{};
    if (::inet_pton(AF_INET, address.c_str(), &parsed) != 1) return false;
    const auto host = ntohl(parsed.s_addr);
    return (host >> 24U) == 10U || (host >> 20U) == 0xAC1U || (host >> 16U) == 0xC0A8U;
}

std::vector<std::string> network_addresses() {
    std::vector<std::string> addresses;
    ifaddrs* list = nullptr;
    if (::getifaddrs(&list) != 0) return addresses;
    const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> owner(list, &::freeifaddrs);
    for (const ifaddrs* one = list; one != nullptr; one = one->ifa_next) {
        if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
        if ((one->ifa_flags & IFF_UP) == 0 || (one->ifa_flags & IFF_LOOPBACK) != 0) continue;
        sockaddr_in socket_address{};
        std::memcpy(&socket_address, one->ifa_addr, sizeof socket_address);
        std::array<char, INET_ADDRSTRLEN> text{};
        if (::inet_ntop(AF_INET, &socket_address.sin_addr, text.data(), text.size()) != nullptr)
            addresses.emplace_back(text.data());
    }
    std::stable_partition(addresses.begin(), addresses.end(), is_private);
    return addresses;
}

}  // namespace ridgetally::web

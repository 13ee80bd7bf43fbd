#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "web/door.h"
#include "web/http.h"
#include "web/memory_budget.h"
#include "web/transport.h"

namespace ridgetally::web {

/// One thing that is served: a method and a whole path.
struct Route {
    std::string method;
    std::string path;
    Takes takes = Takes::nothing;
    std::function<Reply(Request)> answer;
};

/// How large the body of a request may be.
struct BodyLimits {
    std::size_t json_bytes = std::size_t{64} * 1024;  ///< the longest request of the page is under 10 KiB
    /// Photos of 50 megapixels are under 25 MB as JPEG of high quality (not swept); twice that is no photo of
    /// a phone.
    std::size_t form_bytes = std::size_t{48} * 1024 * 1024;
    /// Bodies of all requests together: what 50 phones send at once, 10 MiB each.
    std::size_t all_bytes = std::size_t{512} * 1024 * 1024;
};

/// Lets requests in and leads them to their routes. Safe to be used by several threads.
class Router : public Gate {
  public:
    Router(std::vector<Route> routes, Door door, const BodyLimits& limits, TellFault tell);

    /// Judges the head: the door, the route, the kind and size of the body. Besides the answers of
    /// turned_away: 404 no-such-page, 405 wrong-method, 411 no-length, 413 too-large, 415 wrong-type, 503
    /// busy.
    [[nodiscard]] Admission admit(const Request& head) const override;

    /// Answers an admitted request; 500 where the route throws, and the fault is told.
    [[nodiscard]] Reply answer(Request request) const override;

    [[nodiscard]] const std::vector<Route>& routes() const { return routes_; }

  private:
    [[nodiscard]] const Route* find(const std::string& method, const std::string& path) const;
    [[nodiscard]] Reply no_route(const std::string& path) const;

    std::vector<Route> routes_;
    Door door_;
    BodyLimits limits_;
    MemoryBudget budget_;
    TellFault tell_;
};

}  // namespace ridgetally::web

#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "web/router.h"

namespace ridgetally::web {

/// A file of the page, built into the program.
struct PageFile {
    std::string_view name;  ///< "app.css"
    std::span<const unsigned char> bytes;
};

/// Every file of src/web/page, by name. Written by scripts/cmake/embed.cmake.
[[nodiscard]] std::span<const PageFile> page_files();

/// "text/css; charset=utf-8" and the like, by the ending of the name; "application/octet-stream" for an
/// unknown one.
[[nodiscard]] std::string_view content_type_of(std::string_view file_name);

/// Routes that serve them: index.html at "/", the others at "/page/NAME". Browsers keep them and ask whether
/// they changed (ETag, RFC 9110, section 8.8.3).
[[nodiscard]] std::vector<Route> page_routes(std::span<const PageFile> files);

}  // namespace ridgetally::web

#pragma once

#include <functional>
#include <future>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/outcome.h"
#include "image/photo.h"
#include "pipeline/trace.h"
#include "report/document.h"

namespace ridgetally {

/// What a command makes of a photo, on the command line and in the web API alike. `Result` has `warnings`.
template <typename Result>
struct PhotoCommand {
    std::string name;  ///< "swatch"
    /// Begins what measuring will need, beside the reading of the photo; empty where there is nothing.
    std::function<std::future<void>()> ahead;
    std::function<Outcome<Result>(const Photo&, Trace&)> measure;
    std::function<Result(const std::vector<Result>&)> combine;
    std::function<Document(const Result&, const DocumentOptions&)> document;
    std::function<std::string(const Result&)> text;
    std::function<cv::Mat(const cv::Mat& view_bgr, const Result&)> picture;
};

}  // namespace ridgetally

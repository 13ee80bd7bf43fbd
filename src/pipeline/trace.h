#pragma once

#include <functional>
#include <opencv2/core.hpp>
#include <string>

namespace ridgetally {

/// Write-only: what the stages were thinking. Nothing is computed for it while nobody listens.
class Trace {
  public:
    using PictureSink = std::function<void(const std::string& name, const cv::Mat& picture)>;
    using NoteSink = std::function<void(const std::string& line)>;

    Trace() = default;
    Trace(PictureSink pictures, NoteSink notes) : pictures_(std::move(pictures)), notes_(std::move(notes)) {}

    [[nodiscard]] bool wants_pictures() const { return static_cast<bool>(pictures_); }
    void picture(const std::string& name, const cv::Mat& picture) {
        if (pictures_) pictures_(name, picture);
    }
    void note(const std::string& line) {
        if (notes_) notes_(line);
    }

  private:
    PictureSink pictures_;
    NoteSink notes_;
};

}  // namespace ridgetally

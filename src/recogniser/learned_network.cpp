#include "recogniser/learned_network.h"

#include <map>
#include <mutex>
#include <nlohmann/json.hpp>
#include <opencv2/dnn.hpp>
#include <optional>
#include <stdexcept>
#include <utility>

#include "image/file_bytes.h"

namespace ridgetally {
namespace {

constexpr std::size_t most_manifest_bytes = 1U << 16U;
constexpr std::size_t most_weight_bytes = 16U << 20U;

/// What the manifest says of one file.
struct Entry {
    std::string file;
    std::string sha256;
};

Outcome<Entry> entry_of(const std::filesystem::path& folder, const std::string& key) {
    const auto bytes = read_file((folder / "manifest.json").string(), most_manifest_bytes);
    if (!bytes) return no_weights(bytes.refusal().message);
    const auto manifest = nlohmann::json::parse(*bytes, nullptr, false);
    const auto text = [](const nlohmann::json& object, const char* name) {
        const bool there = object.is_object() && object.contains(name) && object[name].is_string();
        return there ? object[name].get<std::string>() : std::string();
    };
    if (text(manifest, "schema") != "ridgetally.recogniser/2" || !manifest.contains(key)) {
        return no_weights("manifest.json is damaged or of another version");
    }
    return Entry{text(manifest[key], "file"), text(manifest[key], "sha256")};
}

}  // namespace

Refusal no_weights(const std::string& why) {
    return {"recogniser", "no-weights", "the learned recogniser is not used: " + why,
            "install the models folder again"};
}

/// Networks of one set of weights that nobody runs at the moment, by the size of tile they are laid out for:
/// a change of size makes the engine lay out its memory anew.
class LearnedNetwork::Idle {
  public:
    explicit Idle(std::vector<std::uint8_t> onnx) : onnx_(std::move(onnx)) {}

    /// A network for this size, which nobody else runs until it is given back.
    cv::dnn::Net take(cv::Size size) {
        if (auto net = idle(size)) return *net;
        // Laying out memory anew is still cheaper than reading the weights again, and no tile is as small as
        // the trial.
        if (auto tried = idle({trial_side_px, trial_side_px})) return *tried;
        return cv::dnn::readNetFromONNX(reinterpret_cast<const char*>(onnx_.data()), onnx_.size());
    }

    void give_back(cv::Size size, const cv::dnn::Net& net) {
        const std::lock_guard<std::mutex> lock(turn_);
        by_size_.emplace(std::pair(size.width, size.height), net);
    }

  private:
    std::optional<cv::dnn::Net> idle(cv::Size size) {
        const std::lock_guard<std::mutex> lock(turn_);
        auto found = by_size_.extract(std::pair(size.width, size.height));
        if (!found) return std::nullopt;
        return std::move(found.mapped());
    }

    std::vector<std::uint8_t> onnx_;
    std::mutex turn_;
    std::multimap<std::pair<int, int>, cv::dnn::Net> by_size_;
};

std::vector<cv::Mat> LearnedNetwork::run(const cv::Mat& tile, const std::vector<std::string>& outputs) const {
    if (tile.type() != CV_32FC1 || tile.cols % 16 != 0 || tile.rows % 16 != 0 || tile.empty()) {
        throw std::invalid_argument("the recogniser takes float tiles with sides of 16 n pixels");
    }
    const int shape[] = {1, 1, tile.rows, tile.cols};
    const cv::Mat solid = tile.isContinuous() ? tile : tile.clone();
    const cv::Mat input(4, shape, CV_32F, const_cast<float*>(solid.ptr<float>()));
    cv::dnn::Net net = idle_->take(tile.size());
    net.setInput(input, "picture");
    std::vector<cv::Mat> out;
    net.forward(out, outputs);
    // The engine's own memory, which the next run overwrites.
    for (cv::Mat& blob : out) blob = blob.clone();
    idle_->give_back(tile.size(), net);
    return out;
}

Outcome<LearnedNetwork> load_network(const std::filesystem::path& folder, const std::string& key) {
    const auto entry = entry_of(folder, key);
    if (!entry) return entry.refusal();
    auto onnx = read_file((folder / entry->file).string(), most_weight_bytes);
    if (!onnx) return no_weights(onnx.refusal().message);
    if (sha256_hex(*onnx) != entry->sha256) return no_weights(entry->file + " is damaged");
    return LearnedNetwork(std::make_shared<LearnedNetwork::Idle>(std::move(onnx).value()));
}

cv::Mat channels_of(const cv::Mat& blob, int first, int count) {
    std::vector<cv::Mat> planes;
    for (int c = first; c < first + count; ++c)
        planes.emplace_back(blob.size[2], blob.size[3], CV_32FC1, const_cast<float*>(blob.ptr<float>(0, c)));
    cv::Mat out;
    cv::merge(planes, out);
    return out;
}

}  // namespace ridgetally

#include "recogniser/learned_network.h"

#include <map>
#include <mutex>
#include <nlohmann/json.hpp>
#include <opencv2/dnn.hpp>
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

/// One network for each size of tile, since a change of size makes the engine lay out its memory anew.
struct LearnedNetwork::Shared {
    std::vector<std::uint8_t> onnx;
    std::map<std::pair<int, int>, cv::dnn::Net> by_size;
    std::mutex turn;

    cv::dnn::Net& for_size(cv::Size size) {
        const std::pair<int, int> key(size.width, size.height);
        const auto found = by_size.find(key);
        if (found != by_size.end()) return found->second;
        // Laying out memory anew is still cheaper than reading the weights again, and no tile is as small as
        // the trial.
        if (auto tried = by_size.extract({trial_side_px, trial_side_px})) {
            tried.key() = key;
            return by_size.insert(std::move(tried)).position->second;
        }
        const auto* bytes = reinterpret_cast<const char*>(onnx.data());
        return by_size.emplace(key, cv::dnn::readNetFromONNX(bytes, onnx.size())).first->second;
    }
};

std::vector<cv::Mat> LearnedNetwork::run(const cv::Mat& tile, const std::vector<std::string>& outputs) const {
    if (tile.type() != CV_32FC1 || tile.cols % 16 != 0 || tile.rows % 16 != 0 || tile.empty()) {
        throw std::invalid_argument("the recogniser takes float tiles with sides of 16 n pixels");
    }
    const int shape[] = {1, 1, tile.rows, tile.cols};
    const cv::Mat solid = tile.isContinuous() ? tile : tile.clone();
    const cv::Mat input(4, shape, CV_32F, const_cast<float*>(solid.ptr<float>()));
    const std::lock_guard<std::mutex> lock(shared_->turn);
    cv::dnn::Net& net = shared_->for_size(tile.size());
    net.setInput(input, "picture");
    std::vector<cv::Mat> out;
    net.forward(out, outputs);
    // The engine's own memory, which the next run overwrites.
    for (cv::Mat& blob : out) blob = blob.clone();
    return out;
}

Outcome<LearnedNetwork> load_network(const std::filesystem::path& folder, const std::string& key) {
    const auto entry = entry_of(folder, key);
    if (!entry) return entry.refusal();
    auto onnx = read_file((folder / entry->file).string(), most_weight_bytes);
    if (!onnx) return no_weights(onnx.refusal().message);
    if (sha256_hex(*onnx) != entry->sha256) return no_weights(entry->file + " is damaged");
    auto shared = std::make_shared<LearnedNetwork::Shared>();
    shared->onnx = std::move(onnx).value();
    return LearnedNetwork(std::move(shared));
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

#include "recogniser/recogniser.h"

#include <cmath>
#include <map>
#include <mutex>
#include <nlohmann/json.hpp>
#include <opencv2/dnn.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "image/file_bytes.h"

namespace ridgetally {
namespace {

constexpr std::size_t most_manifest_bytes = 1U << 16U;
constexpr std::size_t most_weight_bytes = 16U << 20U;
constexpr int field_planes = 5;

Refusal no_weights(const std::string& why) {
    return {"recogniser", "no-weights", "the learned recogniser is not used: " + why,
            "install the models folder again"};
}

cv::Mat plane_of(const cv::Mat& blob, int channel) {
    const int rows = blob.size[2];
    const int columns = blob.size[3];
    return {rows, columns, CV_32FC1, const_cast<float*>(blob.ptr<float>(0, channel))};
}

cv::Mat joined(const cv::Mat& blob, int first, int count) {
    std::vector<cv::Mat> planes;
    for (int c = first; c < first + count; ++c) planes.push_back(plane_of(blob, c));
    cv::Mat out;
    cv::merge(planes, out);
    return out;
}

cv::Mat logistic(const cv::Mat& logits) {
    cv::Mat e;
    cv::exp(-logits, e);
    cv::Mat probability = 1.0 / (1.0 + e);
    return probability;
}

}  // namespace

/// One network for each size of tile, since a change of size makes the engine lay out its memory anew.
struct Recogniser::Network {
    std::vector<std::uint8_t> onnx;
    std::map<std::pair<int, int>, cv::dnn::Net> by_size;
    std::mutex turn;

    cv::dnn::Net& for_size(cv::Size size) {
        const std::pair<int, int> key(size.width, size.height);
        const auto found = by_size.find(key);
        if (found != by_size.end()) return found->second;
        const auto* bytes = reinterpret_cast<const char*>(onnx.data());
        return by_size.emplace(key, cv::dnn::readNetFromONNX(bytes, onnx.size())).first->second;
    }
};

PhaseFields Recogniser::run(const cv::Mat& tile) const {
    if (tile.type() != CV_32FC1 || tile.cols % 16 != 0 || tile.rows % 16 != 0 || tile.empty()) {
        throw std::invalid_argument("the recogniser takes float tiles with sides of 16 n pixels");
    }
    const int shape[] = {1, 1, tile.rows, tile.cols};
    const cv::Mat solid = tile.isContinuous() ? tile : tile.clone();
    const cv::Mat input(4, shape, CV_32F, const_cast<float*>(solid.ptr<float>()));
    const std::lock_guard<std::mutex> lock(network_->turn);
    cv::dnn::Net& net = network_->for_size(tile.size());
    net.setInput(input, "picture");
    std::vector<cv::Mat> out;
    net.forward(out, std::vector<cv::String>{"fields", "kinds"});
    PhaseFields fields;
    fields.stitch = joined(out[0], 0, 2);
    fields.row = joined(out[0], 2, 2);
    fields.fabric = logistic(plane_of(out[0], field_planes - 1));
    fields.kinds = joined(out[1], 0, out[1].size[1]);
    return fields;
}

Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder) {
    const auto manifest_bytes = read_file((folder / "manifest.json").string(), most_manifest_bytes);
    if (!manifest_bytes) return no_weights(manifest_bytes.refusal().message);
    const auto manifest = nlohmann::json::parse(*manifest_bytes, nullptr, false);
    const auto text = [&](const char* key) {
        const bool there = manifest.is_object() && manifest.contains(key) && manifest[key].is_string();
        return there ? manifest[key].get<std::string>() : std::string();
    };
    if (text("schema") != "ridgetally.recogniser/1") {
        return no_weights("manifest.json is damaged or of another version");
    }
    const std::string name = text("network");
    auto onnx = read_file((folder / name).string(), most_weight_bytes);
    if (!onnx) return no_weights(onnx.refusal().message);
    if (sha256_hex(*onnx) != text("sha256")) return no_weights(name + " is damaged");
    auto network = std::make_shared<Recogniser::Network>();
    network->onnx = std::move(onnx).value();
    try {
        constexpr int any_side = 64;
        Recogniser recogniser(network);
        const PhaseFields fields = recogniser.run(cv::Mat::zeros(any_side, any_side, CV_32FC1));
        if (fields.kinds.channels() != recognised_family_count + 2)
            return no_weights(name + " has other outputs");
        return recogniser;
    } catch (const cv::Exception& fault) {
        return no_weights(name + " cannot be run: " + fault.err);
    }
}

}  // namespace ridgetally

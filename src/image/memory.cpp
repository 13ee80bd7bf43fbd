#include "image/memory.h"

#include <sys/mman.h>

#include <cstdlib>
#include <opencv2/core.hpp>

namespace ridgetally {
namespace {

constexpr std::size_t large_page = std::size_t{2} << 20;

std::size_t in_whole_pages(std::size_t size) { return (size + large_page - 1) / large_page * large_page; }

/// OpenCV's own allocator but for where the bytes come from.
class LargePageAllocator : public cv::MatAllocator {
  public:
    cv::UMatData* allocate(int dimensions, const int* sizes, int type, void* given, std::size_t* steps,
                           cv::AccessFlag /*access*/, cv::UMatUsageFlags /*usage*/) const override {
        std::size_t total = CV_ELEM_SIZE(type);
        for (int i = dimensions - 1; i >= 0; --i) {
            if (steps != nullptr) {
                if (given != nullptr && steps[i] != cv::Mat::AUTO_STEP) {
                    CV_Assert(total <= steps[i]);
                    total = steps[i];
                } else {
                    steps[i] = total;
                }
            }
            total *= static_cast<std::size_t>(sizes[i]);
        }
        auto* data = given != nullptr ? static_cast<uchar*>(given) : bytes_for(total);
        auto* picture = new cv::UMatData(this);
        picture->data = picture->origdata = data;
        picture->size = total;
        if (given != nullptr) picture->flags |= cv::UMatData::USER_ALLOCATED;
        return picture;
    }

    bool allocate(cv::UMatData* picture, cv::AccessFlag /*access*/,
                  cv::UMatUsageFlags /*usage*/) const override {
        return picture != nullptr;
    }

    void deallocate(cv::UMatData* picture) const override {
        if (picture == nullptr) return;
        CV_Assert(picture->urefcount == 0 && picture->refcount == 0);
        if ((picture->flags & cv::UMatData::USER_ALLOCATED) == 0) {
            if (picture->size >= large_page) {
                std::free(picture->origdata);
            } else {
                cv::fastFree(picture->origdata);
            }
        }
        delete picture;
    }

  private:
    static uchar* bytes_for(std::size_t size) {
        if (size < large_page) return static_cast<uchar*>(cv::fastMalloc(size));
        void* bytes = std::aligned_alloc(large_page, in_whole_pages(size));
        if (bytes == nullptr) CV_Error(cv::Error::StsNoMem, "no memory for a picture");
        // Advice only: without large pages the picture lies on small ones.
        (void)::madvise(bytes, in_whole_pages(size), MADV_HUGEPAGE);
        return static_cast<uchar*>(bytes);
    }
};

}  // namespace

void put_pictures_on_large_pages() {
    // Pictures of static storage may be released after every other object: this one is never destroyed.
    static auto* const allocator = new LargePageAllocator;
    cv::Mat::setDefaultAllocator(allocator);
}

}  // namespace ridgetally

#include "web/transport.h"

#include <dlfcn.h>

namespace ridgetally::web {

const WebLibrary* load_web_library() {
    void* library = ::dlopen("libridgetally_web.so", RTLD_NOW | RTLD_LOCAL);
    if (library == nullptr) return nullptr;
    return static_cast<const WebLibrary*>(::dlsym(library, "ridgetally_web_library"));
}

}  // namespace ridgetally::web

#include "cli/deliver.h"

#include "cli/picture_file.h"
#include "cli/streams.h"
#include "report/text.h"

namespace ridgetally {

ExitStatus deliver_refusal(const Refusal& refusal, const PhotoOfCommand& photo, Form form) {
    const ExitStatus status = status_of(refusal);
    if (status == ExitStatus::refused && form == Form::json) {
        return worse_of(status, write_output(json_text(refusal_document(refusal, photo))));
    }
    write_error(refusal_text(refusal, photo.file));
    return status;
}

ExitStatus deliver_picture(const std::string& file, const cv::Mat& picture) {
    const auto written = write_picture(file, picture);
    if (written) return ExitStatus::ok;
    complain(written.refusal().message);
    return ExitStatus::io;
}

std::string refusal_line(const Refusal& refusal, const PhotoOfCommand& photo) {
    const ExitStatus status = status_of(refusal);
    if (status == ExitStatus::refused) return json_line(refusal_document(refusal, photo));
    return json_line(failure_document(static_cast<int>(status), refusal.message, photo));
}

}  // namespace ridgetally

#include "store/background_check.h"

#include "store/audit.h"

namespace gk::store {

BackgroundCheck::BackgroundCheck(const base::Path& path, const OwnSchema& own)
    : book_(path, Looking::unlocked) {
  answer_ = std::async(std::launch::async, [this, &own] {
              return guarded([&] {
                checkPages(book_, "main", book_.path());
                requireNone(historyFaults(book_, "main", own), book_.path());
              });
            }).share();
}

bool BackgroundCheck::isOver() const {
  return answer_.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

} // namespace gk::store

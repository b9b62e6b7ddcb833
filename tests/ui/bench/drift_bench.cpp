#include "reports/day/close_out.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/support/background.h"
#include "ui/widgets/timer_view.h"

#include <QEventLoop>

#include <atomic>
#include <iostream>

using namespace gk;
using namespace gk::test;

// test_ui "[drift]": a real minute on the real clock.
TEST_CASE("A timer drifts under 50 ms in 60 s while a report is counted", "[.][drift]") {
  using std::chrono::duration_cast;
  using std::chrono::microseconds;
  Clinic clinic;
  for (int i = 0; i < 25; ++i)
    clinic.standardVisit(clinic.child("Child", "Number " + std::to_string(i)));
  const auto records = must(clinic.session.dayRecords(clinic.day));

  base::SystemClock clock;
  ui::TimerView timer(clock);
  timer.show();
  QEventLoop loop;
  std::atomic<bool> done{false};
  std::atomic<int> reports{0};
  QObject owner;
  for (int worker = 0; worker < 2; ++worker)
    ui::inBackground(
        &owner,
        [&] {
          while (!done) {
            reports += static_cast<int>(reports::closeOut(records).counts.children > 0);
          }
          return 0;
        },
        [](int) {});
  microseconds lateness{0};
  std::chrono::steady_clock::time_point start;
  QObject::connect(&timer, &ui::TimerView::reachedTarget, &loop, [&] {
    lateness = duration_cast<microseconds>(std::chrono::steady_clock::now() - start) -
               microseconds(base::Seconds(60));
    loop.quit();
  });
  start = std::chrono::steady_clock::now();
  timer.start(u"Cure"_s, base::Seconds(60));
  loop.exec();
  const auto truth = duration_cast<microseconds>(std::chrono::steady_clock::now() - start);
  const auto counted = duration_cast<microseconds>(timer.stop());
  done = true;
  QThreadPool::globalInstance()->waitForDone();
  const auto drift = counted - truth;
  std::cout << "timer against steady_clock over 60 s: drift "
            << static_cast<double>(drift.count()) / 1000.0 << " ms, target told "
            << static_cast<double>(lateness.count()) / 1000.0 << " ms late, " << reports
            << " close-outs of 25 children counted meanwhile\n";
  CHECK(std::chrono::abs(drift) < std::chrono::milliseconds(50));
  CHECK(lateness < std::chrono::milliseconds(50));
}

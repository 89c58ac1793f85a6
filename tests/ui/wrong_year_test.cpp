// A notebook in which exposures end decades after they started, as a wrong year in a table makes them: it opens, and
// every view comes up and answers.
#include "app/demo/demo_notebook.h"
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/support/desk_fixture.h"

#include <QTest>
#include <ctime>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

double processorSeconds()
{
    timespec now {};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return double(now.tv_sec) + double(now.tv_nsec) * 1e-9;
}

} // namespace

TEST(WrongYear, LocksNeitherTheOpeningNorAView)
{
    DeskFixture room;
    ASSERT_TRUE(demo::writeDemo(room.desk().file()));
    ASSERT_TRUE(room.desk().file().connection().script(
        "UPDATE exposure SET expose_end = replace(expose_end, '2026', '2062');"
        "UPDATE exposure SET expose_end = replace(expose_end, '2025', '2062');"
        "UPDATE print SET dry_end = replace(replace(dry_end, '2026', '2062'), '2025', '2062'), hold_end = "
        "replace(replace(hold_end, '2026', '2062'), '2025', '2062'), rinse_end = replace(replace(rinse_end, '2026', "
        "'2062'), '2025', '2062')"));
    const double before = processorSeconds();
    room.reopen();
    ASSERT_GT(room.desk().notebook().prints().rows(), 100);
    int decades = 0;
    for (int row = 0; row < room.desk().notebook().prints().rows(); ++row) {
        const auto end = room.desk().reader().get(row, u"expose_end").time();
        decades += end && end->toDateTime().date().year() == 2062 ? 1 : 0;
    }
    ASSERT_GT(decades, 100);
    MainWindow window(room.services(), allViews());
    window.resize(1280, 820);
    window.show();
    double slowest = 0;
    for (int view = 0; view < window.count(); ++view) {
        const double from = processorSeconds();
        ASSERT_NE(window.go(view), nullptr);
        QTest::qWait(60);
        slowest = std::max(slowest, processorSeconds() - from);
        EXPECT_LT(processorSeconds() - from, 5) << "view " << view;
    }
    RecordProperty("slowest_view_ms", int(slowest * 1000));
    RecordProperty("all_ms", int((processorSeconds() - before) * 1000));
}

} // namespace WASHFAST_FILE

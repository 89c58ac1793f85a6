// Looks through the whole file beside the window and says in words what came of it. While it takes longer than a moment
// the line at the foot says so, with a button that stops it.
#pragma once

#include "core/store/look.h"
#include "ui/common/view.h"

#include <QFutureWatcher>
#include <memory>
#include <stop_token>

class QStatusBar;

namespace washfast {

class FileCheck : public QObject {
    Q_OBJECT

public:
    FileCheck(const ui::Services& services, QStatusBar& foot, QObject* parent);
    ~FileCheck() override;

    /// Begins unless it is at work already.
    void start();
    void stop();
    [[nodiscard]] bool running() const { return watcher_.isRunning(); }

Q_SIGNALS:
    /// The file is sound, as far as it was looked through.
    void passed();
    void foundDamaged();

private:
    struct Seen {
        Result<store::Look> look;
        QString way_out; // of a damaged one
    };
    void finish();

    ui::Services services_;
    QStatusBar& foot_;
    QWidget* line_; // at the foot
    std::stop_source stop_;
    QFutureWatcher<std::shared_ptr<Seen>> watcher_;
};

} // namespace washfast

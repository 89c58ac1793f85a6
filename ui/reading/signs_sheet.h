// A sheet in a stored photo with what the person marked on it, for looking for signs and for comparing colours; and
// opening such photos in the background.
#pragma once

#include "core/density/photo.h"
#include "core/density/quadrilateral.h"
#include "ui/common/view.h"

#include <QFutureWatcher>
#include <QWidget>
#include <atomic>
#include <deque>
#include <map>
#include <memory>

class QProgressBar;
class QPushButton;

namespace washfast::ui {

/// What a region of the photo shows.
enum class SheetRole { Paper, Covered, White, Even, Edge, Deepest, CommonSpot, WhiteCard, GreyCard };

[[nodiscard]] QString sheetRoleLabel(SheetRole role);

struct MarkedSheet {
    qint64 id = 0; // the photo's row
    QString name;
    QString stage; // key of photo_stage; may be empty
    std::shared_ptr<const density::Photo> photo; // empty while it is being opened, or refused
    QString trouble; // why it was refused
    density::Corners corners {}; // of the sheet, in photo pixels
    std::map<SheetRole, density::Corners> regions;

    /// All of the photo.
    void markWhole();
    /// The corners name the sheet's own top left first: the next corner takes that part.
    void turn();
    [[nodiscard]] std::optional<density::Corners> region(SheetRole role) const;
};

/// A photo as stored, not opened yet.
[[nodiscard]] std::shared_ptr<MarkedSheet> storedSheet(Desk& desk, qint64 photo);
/// "A1-01, a day after, p1.jpg"; without its print where that is plain.
[[nodiscard]] QString photoLabel(Desk& desk, qint64 photo, bool with_print = true);

struct SheetSize {
    double width_mm = 0, height_mm = 0;
    bool recorded = false; // of the print; otherwise from the marked corners, 150 mm long
};
[[nodiscard]] SheetSize sheetSize(Desk& desk, qint64 print, const density::Corners& corners);

/// A bar for work in the background, with a button that stops it; hidden when there is none.
class WorkBar : public QWidget {
    Q_OBJECT

public:
    explicit WorkBar(QWidget* parent = nullptr);

    /// Shows it, and gives what the work is to tell and to ask. The bar must outlive the work.
    [[nodiscard]] density::Watch begin(const QString& what);
    void end();
    void stop() { cancel_ = true; }
    [[nodiscard]] bool stopped() const { return cancel_; }
    [[nodiscard]] QPushButton* stopButton() const { return stop_; }

private:
    std::atomic<bool> cancel_ = false;
    QProgressBar* bar_ = nullptr;
    QPushButton* stop_ = nullptr;
};

/// Opens photos one after another.
class SheetOpener : public QObject {
    Q_OBJECT

public:
    SheetOpener(Desk& desk, WorkBar& bar, QObject* parent = nullptr);
    ~SheetOpener() override;

    void open(const std::shared_ptr<MarkedSheet>& sheet);
    [[nodiscard]] bool busy() const { return opening_ || !waiting_.empty(); }

Q_SIGNALS:
    /// Its photo or its trouble is there now.
    void opened();

private:
    void next();
    void take();

    Desk& desk_;
    WorkBar& bar_;
    std::deque<std::shared_ptr<MarkedSheet>> waiting_;
    std::shared_ptr<MarkedSheet> opening_;
    QFutureWatcher<std::shared_ptr<Result<density::Photo>>> watcher_;
};

} // namespace washfast::ui

#include "ui/reading/signs_sheet.h"

#include "ui/reading/words.h"

#include <QHBoxLayout>
#include <QProgressBar>
#include <QPushButton>
#include <QtConcurrent/QtConcurrentRun>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr double usualLength = 150; // mm, of a sheet whose size is not recorded

} // namespace

QString sheetRoleLabel(SheetRole role)
{
    switch (role) {
    case SheetRole::Paper:
        return ReadingWords::tr("bare paper");
    case SheetRole::Covered:
        return ReadingWords::tr("covered part");
    case SheetRole::White:
        return ReadingWords::tr("white of the print");
    case SheetRole::Even:
        return ReadingWords::tr("part that should be even");
    case SheetRole::Edge:
        return ReadingWords::tr("an edge in the middle of it");
    case SheetRole::Deepest:
        return ReadingWords::tr("deepest tone");
    case SheetRole::CommonSpot:
        return ReadingWords::tr("same spot in both photos");
    case SheetRole::WhiteCard:
        return ReadingWords::tr("white card");
    case SheetRole::GreyCard:
        return ReadingWords::tr("grey card");
    }
    return {};
}

void MarkedSheet::markWhole()
{
    if (photo)
        corners = density::rectangle(0, 0, photo->width(), photo->height());
}

void MarkedSheet::turn()
{
    std::rotate(corners.begin(), corners.begin() + 1, corners.end());
}

std::optional<density::Corners> MarkedSheet::region(SheetRole role) const
{
    const auto found = regions.find(role);
    return found == regions.end() ? std::nullopt : std::optional(found->second);
}

QString photoLabel(Desk& desk, qint64 photo, bool with_print)
{
    const auto& notebook = desk.notebook();
    const Ref ref { Entity::Photo, photo };
    const int row = notebook.table(Entity::Photo).find(photo);
    if (row < 0)
        return {};
    const auto& stages = desk.catalogue().columnField(Entity::Photo, u"photo_stage");
    QStringList parts { with_print ? notebook.nameOf({ Entity::Print, notebook.table(Entity::Photo).owner(row) })
                                   : QString(),
        stages.choiceLabel(notebook.get(ref, u"photo_stage").text().value_or(QString())), notebook.nameOf(ref) };
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

std::shared_ptr<MarkedSheet> storedSheet(Desk& desk, qint64 photo)
{
    auto sheet = std::make_shared<MarkedSheet>();
    sheet->id = photo;
    sheet->name = photoLabel(desk, photo);
    sheet->stage = desk.notebook().get({ Entity::Photo, photo }, u"photo_stage").text().value_or(QString());
    return sheet;
}

SheetSize sheetSize(Desk& desk, qint64 print, const density::Corners& corners)
{
    const auto width = desk.get(print, u"print_width_mm").number();
    const auto height = desk.get(print, u"print_height_mm").number();
    const auto side
        = [&](size_t a, size_t b) { return std::hypot(corners[b].x - corners[a].x, corners[b].y - corners[a].y); };
    const double across = (side(0, 1) + side(3, 2)) / 2, down = (side(1, 2) + side(0, 3)) / 2;
    if (width && height && *width > 0 && *height > 0) {
        // A sheet photographed lying on its side is recorded upright all the same.
        const bool turned = across > 0 && (across > down) != (*width > *height) && *width != *height;
        return turned ? SheetSize { *height, *width, true } : SheetSize { *width, *height, true };
    }
    if (!(across > 0) || !(down > 0))
        return {};
    const double scale = usualLength / std::max(across, down);
    return { across * scale, down * scale, false };
}

WorkBar::WorkBar(QWidget* parent)
    : QWidget(parent)
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    bar_ = new QProgressBar(this);
    bar_->setAccessibleName(ReadingWords::tr("Progress"));
    row->addWidget(bar_, 1);
    stop_ = new QPushButton(ReadingWords::tr("Stop"), this);
    stop_->setAutoDefault(false);
    row->addWidget(stop_);
    connect(stop_, &QPushButton::clicked, this, &WorkBar::stop);
    hide();
}

density::Watch WorkBar::begin(const QString& what)
{
    cancel_ = false;
    bar_->setValue(0);
    bar_->setFormat(what);
    stop_->setAccessibleName(ReadingWords::tr("Stop: %1").arg(what));
    show();
    density::Watch watch;
    watch.cancel = &cancel_;
    // Told only when it moves on by a hundredth: the events of a row each would drown the window.
    auto last = std::make_shared<std::atomic<int>>(-1);
    watch.progress = [bar = bar_, last](double share) {
        const int now = int(100 * share);
        if (last->exchange(now) != now)
            QMetaObject::invokeMethod(
                bar, [bar, now] { bar->setValue(now); }, Qt::QueuedConnection);
    };
    return watch;
}

void WorkBar::end()
{
    hide();
}

SheetOpener::SheetOpener(Desk& desk, WorkBar& bar, QObject* parent)
    : QObject(parent)
    , desk_(desk)
    , bar_(bar)
{
    connect(&watcher_, &QFutureWatcherBase::finished, this, &SheetOpener::take);
}

SheetOpener::~SheetOpener()
{
    bar_.stop();
    watcher_.waitForFinished();
}

void SheetOpener::open(const std::shared_ptr<MarkedSheet>& sheet)
{
    waiting_.push_back(sheet);
    if (!opening_)
        next();
}

void SheetOpener::next()
{
    if (waiting_.empty())
        return;
    opening_ = waiting_.front();
    waiting_.pop_front();
    auto bytes = desk_.file().photo(PhotoId { opening_->id });
    if (!bytes) {
        opening_->trouble = bytes.error().sentence();
        opening_.reset();
        Q_EMIT opened();
        next();
        return;
    }
    const auto watch = bar_.begin(ReadingWords::tr("Opening %1").arg(opening_->name));
    watcher_.setFuture(QtConcurrent::run([bytes = std::move(*bytes), name = opening_->name, watch] {
        return std::make_shared<Result<density::Photo>>(density::readPhoto(bytes, name, watch));
    }));
}

void SheetOpener::take()
{
    const auto sheet = std::exchange(opening_, nullptr);
    const auto result = watcher_.result();
    bar_.end();
    if (*result) {
        sheet->photo = std::make_shared<const density::Photo>(std::move(**result));
        sheet->markWhole();
    } else
        sheet->trouble = result->error().sentence();
    Q_EMIT opened();
    next();
}

} // namespace washfast::ui

#include "ui/prints/photo_strip.h"

#include "ui/prints/photo_reading.h"
#include "ui/reading/reading_desk.h"

#include <QComboBox>
#include <QDialog>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QMimeData>
#include <QPushButton>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr QSize thumb { 180, 140 };
constexpr QSize large { 1200, 900 };
}

PhotoStrip::PhotoStrip(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 8, 0, 0);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    auto* add = new QPushButton(tr("Add &photo..."), this);
    bar->addWidget(add);
    auto* label = new QLabel(tr("w&hich shows it"), this);
    bar->addWidget(label);
    stage_ = new QComboBox(this);
    stage_->setAccessibleName(tr("What the next photo shows"));
    label->setBuddy(stage_);
    for (const auto& choice : services.desk.catalogue().columnField(Entity::Photo, u"photo_stage").choices)
        stage_->addItem(choice.label, choice.key);
    stage_->setCurrentIndex(stage_->count() - 1);
    bar->addWidget(stage_);
    bar->addStretch(1);
    density_ = new QPushButton(tr("Read &density..."), this);
    density_->setAccessibleName(tr("Read densities in the chosen photo"));
    bar->addWidget(density_);
    remove_ = new QPushButton(tr("Remove"), this);
    remove_->setAccessibleName(tr("Remove the chosen photo"));
    bar->addWidget(remove_);
    for (QWidget* writing : { static_cast<QWidget*>(add), static_cast<QWidget*>(label), static_cast<QWidget*>(stage_),
             static_cast<QWidget*>(remove_) })
        writing->setVisible(services.desk.writable());
    list_ = new QListWidget(this);
    list_->setAccessibleName(tr("Photos of this print"));
    list_->setViewMode(QListView::IconMode);
    list_->setIconSize(thumb);
    list_->setResizeMode(QListView::Adjust);
    list_->setMovement(QListView::Static);
    list_->setSpacing(8);
    list_->setWordWrap(true);
    list_->setAcceptDrops(false); // the strip itself takes files
    list_->installEventFilter(this);
    column->addWidget(list_, 1);
    hint_ = new QLabel(services.desk.writable()
            ? tr("Drop JPEG, PNG, TIFF or WebP files on this page. They are stored inside the notebook.")
            : tr("No photos."),
        this);
    hint_->setWordWrap(true);
    hint_->setAlignment(Qt::AlignCenter);
    column->addWidget(hint_);
    setAcceptDrops(services.desk.writable());
    setTheme(services.look.theme());
    connect(add, &QPushButton::clicked, this, &PhotoStrip::choose);
    connect(remove_, &QPushButton::clicked, this, &PhotoStrip::remove);
    connect(density_, &QPushButton::clicked, this, &PhotoStrip::readDensity);
    connect(list_, &QListWidget::itemDoubleClicked, this, &PhotoStrip::enlarge);
    connect(list_, &QListWidget::itemSelectionChanged, this, [this] { remove_->setEnabled(current() != 0); });
}

void PhotoStrip::setPrint(qint64 print)
{
    print_ = print;
    refresh();
}

int PhotoStrip::count() const
{
    return int(services_.desk.notebook().children(Entity::Photo, print_).size());
}

qint64 PhotoStrip::current() const
{
    const auto chosen = list_->selectedItems();
    return chosen.isEmpty() ? 0 : chosen.front()->data(Qt::UserRole).toLongLong();
}

void PhotoStrip::refresh()
{
    stale_ = true;
    list_->setVisible(count() > 0);
    density_->setEnabled(count() > 0);
    hint_->setVisible(services_.desk.writable() || count() == 0);
    layout()->setAlignment(hint_, count() > 0 ? Qt::Alignment() : Qt::AlignCenter);
    if (isVisible())
        read();
}

void PhotoStrip::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (stale_)
        read();
}

void PhotoStrip::read()
{
    stale_ = false;
    const auto chosen = current();
    list_->clear();
    const auto& notebook = services_.desk.notebook();
    const auto& stages = services_.desk.catalogue().columnField(Entity::Photo, u"photo_stage");
    for (const int row : notebook.children(Entity::Photo, print_)) {
        const Ref ref { Entity::Photo, notebook.table(Entity::Photo).id(row) };
        const auto stage = stages.choiceLabel(notebook.get(ref, u"photo_stage").text().value_or(QString()));
        auto* item = new QListWidgetItem(stage + QLatin1Char('\n') + notebook.nameOf(ref), list_);
        const auto bytes = services_.desk.file().photo(PhotoId { ref.id });
        const auto picture = bytes ? uprightPicture(*bytes, thumb * 2) : QImage();
        if (picture.isNull())
            item->setText(item->text() + QLatin1Char('\n') + tr("This picture cannot be shown."));
        else
            item->setIcon(QIcon(QPixmap::fromImage(picture)));
        item->setData(Qt::UserRole, ref.id);
        item->setSelected(ref.id == chosen);
    }
    remove_->setEnabled(current() != 0);
}

void PhotoStrip::choose()
{
    const auto paths = services_.dialogs.openFiles(
        this, tr("Add photos"), {}, { tr("Pictures (*.jpg *.jpeg *.png *.tif *.tiff *.webp)") });
    addFiles(paths);
}

int PhotoStrip::addFiles(const QStringList& paths)
{
    std::vector<TakenPhoto> taken;
    QStringList refused;
    const auto& notebook = services_.desk.notebook();
    QStringList there;
    for (const int row : notebook.children(Entity::Photo, print_))
        there << notebook.get({ Entity::Photo, notebook.table(Entity::Photo).id(row) }, u"photo_sha256")
                     .text()
                     .value_or(QString());
    for (const auto& path : paths) {
        auto photo = takePhoto(path);
        if (!photo)
            refused << QFileInfo(path).fileName() + QStringLiteral(": ") + photo.error().says;
        else if (there.contains(photo->sha256))
            refused << tr("%1: the very same photo is stored with this print already.").arg(photo->name);
        else {
            there << photo->sha256;
            taken.push_back(std::move(*photo));
        }
    }
    const bool done = !taken.empty()
        && services_.desk.perform(tr("Add %n photo(s)", nullptr, int(taken.size())),
            [&](store::Writer& writer) { return store(writer, taken); });
    if (!refused.isEmpty())
        services_.dialogs.message(this, tr("Not every file was taken"), refused.join(QLatin1Char('\n')));
    return done ? int(taken.size()) : 0;
}

Outcome PhotoStrip::store(store::Writer& writer, const std::vector<TakenPhoto>& photos) const
{
    for (const auto& photo : photos) {
        const auto added = writer.addPhoto(print_, photo.bytes,
            { { QStringLiteral("photo_name"), { photo.name } },
                { QStringLiteral("photo_stage"), { stage_->currentData().toString() } },
                { QStringLiteral("photo_format"), { photo.format } },
                { QStringLiteral("photo_sha256"), { photo.sha256 } },
                { QStringLiteral("photo_width_px"), { double(photo.size.width()) } },
                { QStringLiteral("photo_height_px"), { double(photo.size.height()) } },
                { QStringLiteral("photo_bytes"), { double(photo.bytes.size()) } } });
        if (!added)
            return added.error();
    }
    return Done {};
}

void PhotoStrip::enlarge()
{
    const auto id = current();
    if (id == 0)
        return;
    const auto bytes = services_.desk.file().photo(PhotoId { id });
    const auto picture = bytes ? uprightPicture(*bytes, large) : QImage();
    if (picture.isNull())
        return;
    QDialog dialog(this);
    dialog.setWindowTitle(services_.desk.notebook().nameOf(PhotoId { id }));
    auto* column = new QVBoxLayout(&dialog);
    auto* shown = new QLabel(&dialog);
    shown->setAccessibleName(dialog.windowTitle());
    shown->setAlignment(Qt::AlignCenter);
    shown->setPixmap(QPixmap::fromImage(picture));
    column->addWidget(shown);
    dialog.exec();
}

void PhotoStrip::remove()
{
    if (const auto id = current(); id != 0 && services_.desk.writable())
        services_.desk.perform(tr("Remove photo"), [&](store::Writer& writer) {
            return writer.remove({ Entity::Photo, id });
        });
}

void PhotoStrip::readDensity()
{
    const auto rows = services_.desk.notebook().children(Entity::Photo, print_);
    if (rows.empty())
        return;
    const auto chosen = current();
    auto* desk = new ReadingDesk(services_, print_, this);
    desk->setAttribute(Qt::WA_DeleteOnClose);
    desk->addStored(chosen ? chosen : services_.desk.notebook().table(Entity::Photo).id(rows.front()));
    desk->show();
}

QStringList PhotoStrip::filesIn(const QMimeData& data)
{
    QStringList paths;
    for (const auto& url : data.urls())
        if (url.isLocalFile())
            paths << url.toLocalFile();
    return paths;
}

void PhotoStrip::addLater(const QStringList& paths)
{
    const auto print = print_;
    QMetaObject::invokeMethod(
        this,
        [this, paths, print] {
            if (print != print_)
                return;
            if (const int n = addFiles(paths); n > 0)
                Q_EMIT say(tr("Stored %n photo(s).", nullptr, n));
        },
        Qt::QueuedConnection);
}

void PhotoStrip::dragEnterEvent(QDragEnterEvent* event)
{
    if (!filesIn(*event->mimeData()).isEmpty())
        event->acceptProposedAction();
}

void PhotoStrip::dropEvent(QDropEvent* event)
{
    event->setDropAction(Qt::CopyAction); // the file stays where it is
    event->accept();
    addLater(filesIn(*event->mimeData()));
}

bool PhotoStrip::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == list_ && event->type() == QEvent::KeyPress) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter)
            return enlarge(), true;
        if (key.key() == Qt::Key_Delete)
            return remove(), true;
    }
    return QWidget::eventFilter(watched, event);
}

void PhotoStrip::setTheme(const Theme& theme)
{
    auto colours = hint_->palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    hint_->setPalette(colours);
}

} // namespace washfast::ui

#include "ui/prints/photo_strip.h"

#include "ui/prints/photo_reading.h"
#include "ui/reading/compare_dialog.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/signs_dialog.h"

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
    auto* second = new QHBoxLayout; // what is done with a chosen photo
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
    column->addLayout(second);
    density_ = new QPushButton(tr("Read &density..."), this);
    density_->setAccessibleName(tr("Read densities in the chosen photo"));
    signs_ = new QPushButton(tr("Look for &signs..."), this);
    signs_->setAccessibleName(tr("Look for signs in the chosen photo"));
    colours_ = new QPushButton(tr("Compare &colours..."), this);
    colours_->setToolTip(tr("Of two photos; choose both with Ctrl, or choose the other one there."));
    remove_ = new QPushButton(tr("Remove"), this);
    remove_->setAccessibleName(tr("Remove the chosen photo"));
    for (auto* button : { density_, signs_, colours_ })
        second->addWidget(button);
    second->addStretch(1);
    second->addWidget(remove_);
    for (QWidget* writing : { static_cast<QWidget*>(add), static_cast<QWidget*>(label), static_cast<QWidget*>(stage_),
             static_cast<QWidget*>(remove_) })
        writing->setVisible(services.desk.writable());
    offer_ = new QPushButton(this);
    offer_->installEventFilter(this);
    offer_->hide();
    column->addWidget(offer_, 0, Qt::AlignLeft);
    connect(offer_, &QPushButton::clicked, this, [this] { openDesk(fresh_); });
    list_ = new QListWidget(this);
    list_->setAccessibleName(tr("Photos of this print"));
    list_->setViewMode(QListView::IconMode);
    list_->setIconSize(thumb);
    list_->setSelectionMode(QAbstractItemView::ExtendedSelection);
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
    connect(list_, &QListWidget::itemSelectionChanged, this,
        [this] { remove_->setEnabled(list_->selectedItems().size() == 1); });
    connect(signs_, &QPushButton::clicked, this, &PhotoStrip::lookForSigns);
    connect(colours_, &QPushButton::clicked, this, &PhotoStrip::compareColours);
}

void PhotoStrip::setPrint(qint64 print)
{
    if (print != print_)
        offer({});
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
    for (auto* button : { density_, signs_, colours_ })
        button->setEnabled(count() > 0);
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
    QVector<qint64> chosen;
    for (const auto* item : list_->selectedItems())
        chosen << item->data(Qt::UserRole).toLongLong();
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
        item->setSelected(chosen.contains(ref.id));
    }
    remove_->setEnabled(list_->selectedItems().size() == 1);
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
    QVector<qint64> added;
    const bool done = !taken.empty()
        && services_.desk.perform(
            tr("Add %n photo(s)", nullptr, int(taken.size())), [&](store::Writer& writer) -> Outcome {
                const auto ids = store(writer, taken);
                if (!ids)
                    return ids.error();
                added = *ids;
                return Done {};
            });
    if (done)
        offer(added);
    if (!refused.isEmpty())
        services_.dialogs.message(this, tr("Not every file was taken"), refused.join(QLatin1Char('\n')));
    return done ? int(taken.size()) : 0;
}

Result<QVector<qint64>> PhotoStrip::store(store::Writer& writer, const std::vector<TakenPhoto>& photos) const
{
    QVector<qint64> ids;
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
        ids << *added;
    }
    return ids;
}

void PhotoStrip::offer(const QVector<qint64>& photos)
{
    fresh_ = photos;
    offer_->setVisible(!photos.isEmpty());
    if (photos.isEmpty())
        return;
    offer_->setText(tr("Read densities in the %n &new photo(s)", nullptr, int(photos.size())));
    offer_->setFocus(); // Space or Enter opens them
}

void PhotoStrip::openDesk(const QVector<qint64>& photos)
{
    const auto& stored = services_.desk.notebook().table(Entity::Photo);
    QVector<qint64> there;
    for (const auto id : photos)
        if (stored.find(id) >= 0)
            there << id;
    offer({});
    if (there.isEmpty())
        return;
    auto* desk = new ReadingDesk(services_, print_, this);
    desk->setAttribute(Qt::WA_DeleteOnClose);
    desk->addStored(there);
    desk->show();
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
    if (const auto id = current(); list_->selectedItems().size() == 1 && services_.desk.writable())
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
    openDesk({ chosen ? chosen : services_.desk.notebook().table(Entity::Photo).id(rows.front()) });
}

qint64 PhotoStrip::currentOrFirst() const
{
    const auto rows = services_.desk.notebook().children(Entity::Photo, print_);
    const auto chosen = current();
    return chosen || rows.empty() ? chosen : services_.desk.notebook().table(Entity::Photo).id(rows.front());
}

void PhotoStrip::lookForSigns()
{
    const auto photo = currentOrFirst();
    if (photo == 0)
        return;
    auto* dialog = new SignsDialog(services_, print_, photo, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->show();
}

void PhotoStrip::compareColours()
{
    qint64 first = currentOrFirst(), second = 0;
    const auto& notebook = services_.desk.notebook();
    if (const auto chosen = list_->selectedItems(); chosen.size() >= 2)
        second = chosen[1]->data(Qt::UserRole).toLongLong();
    else
        for (const int row : notebook.children(Entity::Photo, print_)) // the next one of this print, if there is any
            if (const auto id = notebook.table(Entity::Photo).id(row); second == 0 && id != first)
                second = id;
    auto* dialog = new CompareDialog(services_, { print_ }, first, second, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->show();
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
    if (watched == offer_ && event->type() == QEvent::KeyPress) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter)
            return offer_->click(), true;
    }
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

#include "ui/prints/photo_strip.h"

#include "ui/prints/photo_reading.h"

#include <QComboBox>
#include <QDialog>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QHBoxLayout>
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
    column->setContentsMargins(0, 0, 0, 0);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    auto* add = new QPushButton(tr("Add &photo..."), this);
    add->setEnabled(services.desk.writable());
    bar->addWidget(add);
    auto* label = new QLabel(tr("taken"), this);
    bar->addWidget(label);
    stage_ = new QComboBox(this);
    stage_->setAccessibleName(tr("What the next photo shows"));
    for (const auto& choice : services.desk.catalogue().columnField(Entity::Photo, u"photo_stage").choices)
        stage_->addItem(choice.label, choice.key);
    stage_->setCurrentIndex(stage_->count() - 1);
    bar->addWidget(stage_);
    bar->addStretch(1);
    auto* remove = new QPushButton(tr("Remove"), this);
    remove->setEnabled(services.desk.writable());
    bar->addWidget(remove);
    list_ = new QListWidget(this);
    list_->setAccessibleName(tr("Photos of this print"));
    list_->setViewMode(QListView::IconMode);
    list_->setIconSize(thumb);
    list_->setResizeMode(QListView::Adjust);
    list_->setMovement(QListView::Static);
    list_->setSpacing(8);
    list_->setWordWrap(true);
    list_->setAcceptDrops(false); // the strip itself takes files
    column->addWidget(list_, 1);
    hint_ = new QLabel(tr("Drop JPEG, PNG, TIFF or WebP files here. They are stored inside the notebook."), this);
    hint_->setWordWrap(true);
    column->addWidget(hint_);
    setAcceptDrops(true);
    connect(add, &QPushButton::clicked, this, &PhotoStrip::choose);
    connect(remove, &QPushButton::clicked, this, &PhotoStrip::remove);
    connect(list_, &QListWidget::itemActivated, this, &PhotoStrip::enlarge);
}

void PhotoStrip::setPrint(qint64 print)
{
    print_ = print;
    refresh();
}

int PhotoStrip::count() const
{
    return list_->count();
}

qint64 PhotoStrip::current() const
{
    return list_->currentItem() ? list_->currentItem()->data(Qt::UserRole).toLongLong() : 0;
}

void PhotoStrip::refresh()
{
    list_->clear();
    const auto& notebook = services_.desk.notebook();
    const auto& catalogue = services_.desk.catalogue();
    for (const int row : notebook.children(Entity::Photo, print_)) {
        const auto& photos = notebook.table(Entity::Photo);
        const Ref ref { Entity::Photo, photos.id(row) };
        const auto stage = catalogue.columnField(Entity::Photo, u"photo_stage").choiceLabel(notebook.get(ref, u"photo_stage").text().value_or(QString()));
        const auto bytes = services_.desk.file().photo(PhotoId { ref.id });
        auto* item = new QListWidgetItem(stage + QLatin1Char('\n') + notebook.nameOf(ref), list_);
        if (bytes)
            item->setIcon(QIcon(QPixmap::fromImage(uprightPicture(*bytes, thumb * 2))));
        item->setData(Qt::UserRole, ref.id);
    }
    list_->setVisible(list_->count() > 0);
}

void PhotoStrip::choose()
{
    const auto paths = services_.dialogs.openFiles(this, tr("Add photos"), {}, { tr("Pictures (*.jpg *.jpeg *.png *.tif *.tiff *.webp)") });
    addFiles(paths);
}

int PhotoStrip::addFiles(const QStringList& paths)
{
    std::vector<TakenPhoto> taken;
    QStringList refused;
    const auto& notebook = services_.desk.notebook();
    QStringList there;
    for (const int row : notebook.children(Entity::Photo, print_))
        there << notebook.get({ Entity::Photo, notebook.table(Entity::Photo).id(row) }, u"photo_sha256").text().value_or(QString());
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
    bool done = taken.empty();
    if (!taken.empty())
        done = services_.desk.perform(tr("Add %n photo(s)", nullptr, int(taken.size())), [&](store::Writer& writer) -> Outcome {
            for (const auto& photo : taken) {
                const auto added = writer.addPhoto(print_, photo.bytes,
                    { { QStringLiteral("photo_name"), { photo.name } }, { QStringLiteral("photo_stage"), { stage_->currentData().toString() } },
                        { QStringLiteral("photo_format"), { photo.format } }, { QStringLiteral("photo_sha256"), { photo.sha256 } },
                        { QStringLiteral("photo_width_px"), { double(photo.size.width()) } }, { QStringLiteral("photo_height_px"), { double(photo.size.height()) } },
                        { QStringLiteral("photo_bytes"), { double(photo.bytes.size()) } } });
                if (!added)
                    return added.error();
            }
            return Done {};
        });
    if (!refused.isEmpty())
        services_.dialogs.message(this, tr("Not every file was taken"), refused.join(QLatin1Char('\n')));
    return done ? int(taken.size()) : 0;
}

void PhotoStrip::enlarge()
{
    const auto bytes = services_.desk.file().photo(PhotoId { current() });
    if (!bytes)
        return;
    QDialog dialog(this);
    dialog.setWindowTitle(list_->currentItem()->text().simplified());
    auto* column = new QVBoxLayout(&dialog);
    auto* picture = new QLabel(&dialog);
    picture->setAlignment(Qt::AlignCenter);
    picture->setPixmap(QPixmap::fromImage(uprightPicture(*bytes, large)));
    column->addWidget(picture);
    dialog.exec();
}

void PhotoStrip::remove()
{
    if (const auto id = current(); id != 0)
        services_.desk.perform(tr("Remove photo"), [&](store::Writer& writer) { return writer.remove({ Entity::Photo, id }); });
}

void PhotoStrip::dragEnterEvent(QDragEnterEvent* event)
{
    if (event->mimeData()->hasUrls() && services_.desk.writable())
        event->acceptProposedAction();
}

void PhotoStrip::dropEvent(QDropEvent* event)
{
    QStringList paths;
    for (const auto& url : event->mimeData()->urls())
        if (url.isLocalFile())
            paths << url.toLocalFile();
    event->acceptProposedAction();
    if (const int n = addFiles(paths); n > 0)
        Q_EMIT say(tr("Stored %n photo(s).", nullptr, n));
}

} // namespace washfast::ui

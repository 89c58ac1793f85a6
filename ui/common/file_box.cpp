#include "ui/common/file_box.h"

#include <QApplication>
#include <QFileInfo>
#include <QStyle>

namespace washfast::ui {

IconsByName::IconsByName()
    : file_(QApplication::style()->standardIcon(QStyle::SP_FileIcon))
    , folder_(QApplication::style()->standardIcon(QStyle::SP_DirIcon))
    , drive_(QApplication::style()->standardIcon(QStyle::SP_DriveHDIcon))
    , computer_(QApplication::style()->standardIcon(QStyle::SP_ComputerIcon))
    , bin_(QApplication::style()->standardIcon(QStyle::SP_TrashIcon))
{
}

QIcon IconsByName::icon(IconType type) const
{
    switch (type) {
    case Computer:
        return computer_;
    case Trashcan:
        return bin_;
    case Drive:
        return drive_;
    case Desktop:
    case Network:
    case Folder:
        return folder_;
    case File:
        break;
    }
    return file_;
}

QIcon IconsByName::icon(const QFileInfo& info) const
{
    return info.isRoot() ? drive_ : info.isDir() ? folder_ : file_;
}

QString IconsByName::type(const QFileInfo& info) const
{
    if (info.isDir())
        return FileBox::tr("Folder");
    return info.suffix().isEmpty() ? FileBox::tr("File") : FileBox::tr("%1 file").arg(info.suffix());
}

namespace {
/// A child of the box, so that it goes after the model that reads folders with its help.
struct KeptIcons : QObject {
    using QObject::QObject;
    IconsByName icons;
};
} // namespace

FileBox::FileBox(QWidget* parent, const QString& title, const QString& start_path, const QStringList& filters)
    : QFileDialog(parent, Qt::WindowFlags())
{
    // First of all: as soon as events are handled, the files of a folder are shown with their kinds.
    setOption(DontUseNativeDialog);
    setOption(DontUseCustomDirectoryIcons);
    setIconProvider(&(new KeptIcons(this))->icons);
    setWindowTitle(title);
    setNameFilters(filters);
    const QFileInfo start(start_path);
    if (!start_path.isEmpty() && (start.isAbsolute() || start.exists()))
        setDirectory(start.isDir() ? start_path : start.absolutePath());
    if (!start.isDir())
        selectFile(start.fileName());
}

} // namespace washfast::ui

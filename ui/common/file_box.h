// The box in which the person chooses a file. It never looks into one: kinds and icons go by the name alone, and it is
// the toolkit's own and not the desktop's. A box that opens files to tell their kind closes them again, which may drop
// the locks of a notebook that is open (core/store/file_locks.h), and is slow on a stick or a share.
#pragma once

#include <QAbstractFileIconProvider>
#include <QFileDialog>

namespace washfast::ui {

class IconsByName final : public QAbstractFileIconProvider {
public:
    IconsByName();
    [[nodiscard]] QIcon icon(IconType type) const override;
    [[nodiscard]] QIcon icon(const QFileInfo& info) const override;
    [[nodiscard]] QString type(const QFileInfo& info) const override;

private:
    QIcon file_, folder_, drive_, computer_, bin_;
};

class FileBox : public QFileDialog {
    Q_OBJECT

public:
    /// Shows the folder of `start_path`, or it when it is a folder; where that says no folder, the one that was shown
    /// last. `filters` are written as "Pictures (*.png *.jpg)".
    FileBox(QWidget* parent, const QString& title, const QString& start_path, const QStringList& filters);
};

} // namespace washfast::ui

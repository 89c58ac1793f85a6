// The photos of a print: small pictures, with dropping files in, their stage, enlarging and removing.
#pragma once

#include "ui/common/view.h"

class QComboBox;
class QLabel;
class QListWidget;

namespace washfast::ui {

class PhotoStrip : public QWidget {
    Q_OBJECT

public:
    explicit PhotoStrip(const Services& services, QWidget* parent = nullptr);

    void setPrint(qint64 print);
    [[nodiscard]] int count() const;
    /// Takes files in, one step for all that are good; the others are told. Gives how many were stored.
    int addFiles(const QStringList& paths);

Q_SIGNALS:
    void say(const QString& sentence);

public Q_SLOTS:
    void refresh();

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void choose();
    void enlarge();
    void remove();
    [[nodiscard]] qint64 current() const;

    Services services_;
    qint64 print_ = 0;
    QListWidget* list_ = nullptr;
    QComboBox* stage_ = nullptr;
    QLabel* hint_ = nullptr;
};

} // namespace washfast::ui

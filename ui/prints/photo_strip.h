// The photos of a print: small pictures, with dropping files in, their stage, enlarging and removing.
#pragma once

#include "ui/common/view.h"

class QComboBox;
class QLabel;
class QListWidget;
class QMimeData;
class QPushButton;

namespace washfast::ui {

struct TakenPhoto;

class PhotoStrip : public QWidget {
    Q_OBJECT

public:
    explicit PhotoStrip(const Services& services, QWidget* parent = nullptr);

    void setPrint(qint64 print);
    [[nodiscard]] int count() const;
    /// Takes files in, one step for all that are good; the others are told. Gives how many were stored.
    int addFiles(const QStringList& paths);
    /// Files of this machine among what is dragged or dropped.
    [[nodiscard]] static QStringList filesIn(const QMimeData& data);
    /// Takes files in once the program that they are dragged from is free again, and tells how many.
    void addLater(const QStringList& paths);
    [[nodiscard]] QListWidget* list() const { return list_; }
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void say(const QString& sentence);

public Q_SLOTS:
    void refresh();
    void enlarge();
    void remove();
    /// Opens the Reading desk on the chosen photo, or on the first when none is chosen.
    void readDensity();

protected:
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void choose();
    void read();
    [[nodiscard]] Outcome store(store::Writer& writer, const std::vector<TakenPhoto>& photos) const;
    [[nodiscard]] qint64 current() const;

    Services services_;
    qint64 print_ = 0;
    QListWidget* list_ = nullptr;
    QComboBox* stage_ = nullptr;
    QPushButton* remove_ = nullptr;
    QPushButton* density_ = nullptr;
    QLabel* hint_ = nullptr;
    bool stale_ = true; // pictures are read when they are looked at
};

} // namespace washfast::ui

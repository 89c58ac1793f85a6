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
    /// Takes files in, one step for all that are good; the others are told. Gives how many were stored, and offers to
    /// read their densities.
    int addFiles(const QStringList& paths);
    /// Opens what was stored last in one Reading desk; shown and under the keys after photos were added.
    [[nodiscard]] QPushButton* offerButton() const { return offer_; }
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
    /// Looks for signs in the chosen photo, or in the first when none is chosen.
    void lookForSigns();
    /// Compares the colours of the two chosen photos; what is not chosen is chosen there.
    void compareColours();

protected:
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void choose();
    void read();
    [[nodiscard]] Result<QVector<qint64>> store(store::Writer& writer, const std::vector<TakenPhoto>& photos) const;
    void offer(const QVector<qint64>& photos);
    void openDesk(const QVector<qint64>& photos);
    [[nodiscard]] qint64 current() const;
    [[nodiscard]] qint64 currentOrFirst() const;

    Services services_;
    qint64 print_ = 0;
    QListWidget* list_ = nullptr;
    QComboBox* stage_ = nullptr;
    QPushButton* remove_ = nullptr;
    QPushButton* density_ = nullptr;
    QPushButton* signs_ = nullptr;
    QPushButton* colours_ = nullptr;
    QPushButton* offer_ = nullptr;
    QVector<qint64> fresh_; // stored last, not read yet
    QLabel* hint_ = nullptr;
    bool stale_ = true; // pictures are read when they are looked at
};

} // namespace washfast::ui

// One print's page: what it is, its tone pair, the stations in the order of time, readings and the other rows that
// belong to it, photos, and its history.
#pragma once

#include "ui/common/view.h"

class QLabel;
class QTabWidget;
class QTableWidget;
class QVBoxLayout;

namespace washfast::ui {

class ChildTable;
class LedgerPanel;
class PhotoStrip;
class PrintForm;
class StationSection;
class ToneBox;

class PrintPage : public QWidget {
    Q_OBJECT

public:
    explicit PrintPage(const Services& services, QWidget* parent = nullptr);

    void setPrint(qint64 print);
    [[nodiscard]] qint64 print() const { return print_; }
    void setTheme(const Theme& theme);
    [[nodiscard]] PhotoStrip* photos() const { return photos_; }
    [[nodiscard]] QTableWidget* history() const { return history_; }
    [[nodiscard]] LedgerPanel* ledger() const { return ledger_; }
    [[nodiscard]] QTabWidget* tabs() const { return tabs_; }
    [[nodiscard]] PrintForm* outcome() const { return outcome_; }
    /// The sections as they stand, from top to bottom.
    [[nodiscard]] const std::vector<StationSection*>& sections() const { return sections_; }
    [[nodiscard]] StationSection* section(Station station) const;
    [[nodiscard]] ChildTable* childTable(Entity entity) const;

Q_SIGNALS:
    void closed();
    void say(const QString& sentence);

public Q_SLOTS:
    void refresh();

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void buildHeader(QVBoxLayout& column);
    void buildStations();
    void buildRows();
    void buildHistory();
    void fillHistory();
    void buildLedger();
    /// Goes to the station of a field.
    void showField(const QString& key);
    void showPrint(int row);
    void orderStations();
    void follow(const QVector<store::Change>& changes);

    Services services_;
    qint64 print_ = 0;
    bool stale_ = false; // something changed while the page was not looked at
    QLabel* code_ = nullptr;
    QLabel* about_ = nullptr;
    ToneBox* tones_ = nullptr;
    PrintForm* outcome_ = nullptr;
    QTabWidget* tabs_ = nullptr;
    QVBoxLayout* stations_ = nullptr;
    std::vector<StationSection*> sections_;
    std::vector<std::pair<Entity, ChildTable*>> tables_;
    PhotoStrip* photos_ = nullptr;
    LedgerPanel* ledger_ = nullptr;
    QTableWidget* history_ = nullptr;
};

} // namespace washfast::ui

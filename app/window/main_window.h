// The window: the list of views at the left, the view at work, menus, and one line at the foot. Views are made when
// they are first visited. It builds nothing else; what it needs is handed in.
#pragma once

#include "ui/common/view.h"

#include <QMainWindow>
#include <functional>

class QLabel;
class QListWidget;
class QStackedWidget;

namespace washfast {

struct ViewEntry {
    QString title;
    QString hint; // one sentence, as a tool tip
    std::function<ui::View*(const ui::Services&)> make;
};

class MainWindow : public QMainWindow {
    Q_OBJECT

public:
    MainWindow(const ui::Services& services, std::vector<ViewEntry> entries, QWidget* parent = nullptr);

    /// Shows a view; makes it when it is the first time.
    ui::View* go(int index);
    [[nodiscard]] int count() const { return int(entries_.size()); }
    [[nodiscard]] int current() const;
    [[nodiscard]] int indexOf(const QString& title) const;

Q_SIGNALS:
    void openRequested(const QString& path); // another notebook, or a new one
    void importRequested();
    void bringInRequested(); // another notebook into this one
    void checkRequested(); // whether the file is sound

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void closeEvent(QCloseEvent* event) override;

private:
    void buildMenus();
    void buildFileMenu();
    void buildHelpMenu();
    void tell(const Error& error);
    void showStanding(); // why the notebook cannot be changed
    void updateUndo();
    void openOther(bool fresh);
    void copyNotebook();

    ui::Services services_;
    std::vector<ViewEntry> entries_;
    std::vector<ui::View*> views_;
    QListWidget* list_ = nullptr;
    QStackedWidget* stack_ = nullptr;
    QLabel* banner_ = nullptr;
    QAction* bring_in_ = nullptr;
    QAction* undo_ = nullptr;
    QAction* redo_ = nullptr;
};

} // namespace washfast

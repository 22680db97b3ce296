import { lazy, Suspense, useEffect } from "react";
import { Link, Redirect, Route, Switch, useLocation } from "wouter";
import type { TankRecord } from "./data/api.ts";
import { set, useSettings } from "./data/settings.ts";
import { type TankDoor, useTank } from "./data/use-tank.ts";
import { appPlaces } from "./pages/places.ts";
import { TodayPage } from "./pages/today.tsx";

const StartPage = lazy(() => import("./pages/start.tsx").then((m) => ({ default: m.StartPage })));
const PlacePage = lazy(() => import("./pages/place.tsx").then((m) => ({ default: m.PlacePage })));
const FilePage = lazy(() => import("./pages/file.tsx").then((m) => ({ default: m.FilePage })));

/** Units and light of this reader. */
function Switches() {
  const { units, theme } = useSettings();
  const option = (on: boolean, label: string, choose: () => void) => (
    <button type="button" aria-pressed={on} className={on ? "on" : undefined} onClick={choose}>
      {label}
    </button>
  );
  return (
    <div className="switches">
      <span role="group" aria-label="Units">
        {option(units === "metric", "metric", () => set({ units: "metric" }))} /{" "}
        {option(units === "us", "US", () => set({ units: "us" }))}
      </span>
      <span role="group" aria-label="Light">
        {option(theme === "paper", "paper", () => set({ theme: "paper" }))} /{" "}
        {option(theme === "room", "dark room", () => set({ theme: "room" }))}
      </span>
    </div>
  );
}

function TankHeader({ tank, door, place }: { tank: TankRecord; door: TankDoor; place: string }) {
  return (
    <header className="top">
      <Link href="/" className="house">
        Lentic
      </Link>
      <div className="tank-name">
        {tank.name}
        {tank.invented && <em>invented example</em>}
      </div>
      <span className="saving" role="status">
        {door.saving === "saving"
          ? "saving …"
          : door.saving === "offline"
            ? "not reached: kept in this browser, trying again"
            : ""}
      </span>
      <nav aria-label="Places">
        {appPlaces.map((p) => (
          <Link key={p.path} href={`/tank/${tank.id}/${p.path}`} aria-current={p.path === place ? "page" : undefined}>
            {p.label}
          </Link>
        ))}
      </nav>
      <Switches />
    </header>
  );
}

function Tank({ id, place }: { id: string; place: string }) {
  const door = useTank(id);
  const { state } = door;
  useEffect(() => {
    const label = appPlaces.find((p) => p.path === place)?.label ?? "";
    document.title = state.kind === "open" ? `${state.tank.name}, ${label.toLowerCase()} · Lentic` : "Lentic";
  }, [state, place]);
  if (state.kind === "loading") return <p className="waiting">Opening …</p>;
  if (state.kind === "missing")
    return <Lost title="This tank is not here" text="It may have been removed, or the address is mistyped." />;
  if (state.kind === "offline") return <p className="waiting">Lentic cannot be reached; trying again …</p>;
  const { tank } = state;
  return (
    <div className="page">
      <TankHeader tank={tank} door={door} place={place} />
      {door.notice && (
        <p className="notice" role="status">
          {door.notice}{" "}
          <button type="button" className="link" onClick={door.clear}>
            fine
          </button>
        </p>
      )}
      <Suspense fallback={<p className="waiting">Opening …</p>}>
        {place === "today" ? (
          <TodayPage key={tank.id} tank={tank} door={door} />
        ) : place === "file" ? (
          <FilePage tank={tank} door={door} />
        ) : (
          <PlacePage tank={tank} door={door} place={appPlaces.find((p) => p.path === place)!} />
        )}
      </Suspense>
    </div>
  );
}

function Lost({ title, text }: { title: string; text: string }) {
  return (
    <div className="page">
      <header className="top">
        <Link href="/" className="house">
          Lentic
        </Link>
        <Switches />
      </header>
      <main className="lost" id="main">
        <h1>{title}</h1>
        <p>
          {text} <Link href="/">To your tanks</Link>
        </p>
      </main>
    </div>
  );
}

/** Focus and scroll go to the top when the place changes, as they would with pages. */
function ScrollTop() {
  const [path] = useLocation();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the path is the trigger
  useEffect(() => {
    if (!location.hash) window.scrollTo(0, 0);
  }, [path]);
  return null;
}

export function App() {
  return (
    <>
      <a className="skip" href="#main">
        To the content
      </a>
      <ScrollTop />
      <Switch>
        <Route path="/">
          <div className="page">
            <header className="top">
              <span className="house">Lentic</span>
              <Switches />
            </header>
            <StartPage />
          </div>
        </Route>
        <Route path="/tank/:id">{({ id }) => <Redirect to={`/tank/${id}/today`} replace />}</Route>
        <Route path="/tank/:id/:place">
          {({ id, place }) =>
            appPlaces.some((p) => p.path === place) ? (
              <Tank id={id} place={place} />
            ) : (
              <Lost title="No such place" text="There is no page at this address." />
            )
          }
        </Route>
        <Route>
          <Lost title="No such page" text="There is no page at this address." />
        </Route>
      </Switch>
    </>
  );
}

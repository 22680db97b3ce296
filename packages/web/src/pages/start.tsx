export function StartPage() { return <main id="main"><h1>Your tanks</h1></main>; }

/** Looks for a Python that holds a reference program; nothing is installed or fetched. */
import { spawnSync } from "node:child_process";

/**
 * The Python named by the environment variable, or python3 on the PATH, if it can import the module.
 * @returns the executable, or one line that tells how to get there.
 */
export function findPython(variable: string, module: string, packages: string): { python: string } | { how: string } {
  const named = process.env[variable];
  for (const python of named ? [named] : ["python3", "python"]) {
    const tried = spawnSync(python, ["-c", `import ${module}`], { stdio: "ignore" });
    if (tried.status === 0) return { python };
  }
  const why = named ? `${named} cannot import ${module}` : `no Python with ${module} was found`;
  return {
    how: `${why}: no comparison. python3 -m venv ref && ref/bin/pip install ${packages}, then set ${variable} to ref/bin/python`,
  };
}

/** Runs a script with a JSON text on its standard input; the JSON that it prints. */
export function askPython<Answer>(python: string, script: string, question: unknown): Answer {
  const done = spawnSync(python, [script], {
    input: JSON.stringify(question),
    encoding: "utf8",
    maxBuffer: 1 << 28,
    // one thread, as on our side
    env: { ...process.env, OMP_NUM_THREADS: "1" },
  });
  if (done.status !== 0) throw new Error(`${script} failed: ${(done.stderr ?? "").trim().split("\n").at(-1)}`);
  return JSON.parse(done.stdout) as Answer;
}

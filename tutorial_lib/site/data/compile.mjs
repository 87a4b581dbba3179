// Turns the Python files of an archive into what Pyodide's own Python reads without compiling: a phone starts in half the time.
import { loadPyodide } from "./node_modules/pyodide/pyodide.mjs";

const [source, target, lock] = Deno.args;
const python = await loadPyodide({ lockFileContents: lock });
python.FS.writeFile("/source.zip", Deno.readFileSync(source));
python.runPython(`
import zipfile
from importlib._bootstrap_external import _code_to_timestamp_pyc as written

with zipfile.ZipFile("/source.zip") as archive, zipfile.ZipFile("/target.zip", "w", zipfile.ZIP_DEFLATED) as made:
    for name in sorted(archive.namelist()):
        data = archive.read(name)
        if name.endswith(".py"):
            data, name = written(compile(data, name, "exec", dont_inherit=True), 0, 0), name + "c"
        info = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
        info.compress_type = zipfile.ZIP_DEFLATED
        made.writestr(info, data)
`);
Deno.writeFileSync(target, python.FS.readFile("/target.zip"));

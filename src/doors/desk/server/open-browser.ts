import { spawn } from 'node:child_process'

/** Asks the system to open an address in the browser that people use; does nothing where there is none. */
export function openBrowser(address: string): void {
  const [command, ...before] =
    process.platform === 'win32' ? ['explorer'] : process.platform === 'darwin' ? ['open'] : ['xdg-open']
  const child = spawn(command ?? '', [...before, address], { stdio: 'ignore', detached: true })
  // The address is printed all the same.
  child.on('error', () => undefined)
  child.unref()
}

export { exportRegistry } from './export.ts'
